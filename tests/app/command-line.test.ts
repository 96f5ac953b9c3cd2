/** Which company a small program of the command line works for. */
import { describe, expect, it } from 'vitest';
import { companyCalled } from '../../src/app/command-line.ts';
import { openStore } from '../../src/store/store.ts';

function storeWith(...names: readonly string[]): ReturnType<typeof openStore> {
  const store = openStore(':memory:');
  names.forEach((name, index) => store.companies.create({ id: `id-${index}`, name, locale: 'en' }, index));
  return store;
}

describe('a company named on the command line', () => {
  it('should be the one of that name', () => {
    const store = storeWith('Blue Heron Pools', 'Rival Pools');
    expect(companyCalled(' Rival Pools ', store).id).toBe('id-1');
    store.close();
  });

  it('should be refused where two share the name, and be found by its id instead', () => {
    const store = storeWith('Rival Pools', 'Rival Pools');
    expect(() => companyCalled('Rival Pools', store)).toThrow(/id-0, id-1/u);
    expect(companyCalled('id-1', store).id).toBe('id-1');
    store.close();
  });

  it('should be refused where there is none', () => {
    const store = storeWith();
    expect(() => companyCalled('Nobody', store)).toThrow(/Nobody/u);
    store.close();
  });
});
