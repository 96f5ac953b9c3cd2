/** Readings sent before a case: nobody is asked for them again. */
import { describe, expect, it } from 'vitest';
import { readIn, technicianAtPlainPool } from './plain-pool.ts';

describe('readings sent before a case', () => {
  it('should be its first answers', () => {
    const talk = technicianAtPlainPool();
    talk.say('filter 32 psi');
    talk.say('the cleaner is not moving');
    expect(readIn(talk)).toEqual(['32 psi']);
    talk.close();
  });

  it('should count by the latest of each gauge', () => {
    const talk = technicianAtPlainPool();
    talk.say('filter 32 psi');
    talk.say('filter 30 psi');
    talk.say('the cleaner is not moving');
    expect(readIn(talk)).toEqual(['30 psi']);
    talk.close();
  });

  it('should no longer count after a quarter of an hour, nor in the case after theirs', () => {
    const talk = technicianAtPlainPool();
    talk.say('filter 32 psi');
    talk.wait(20 * 60_000);
    talk.say('the cleaner is not moving');
    expect(readIn(talk)).toEqual([]);
    talk.say('vacuum 3');
    expect(readIn(talk)).toEqual(['3 inHg']);
    talk.say('/stop');
    talk.say('the cleaner is not moving');
    expect(readIn(talk)).toEqual([]);
    talk.close();
  });
});
