/** Plays every case file of this folder; each is written so that a person of the trade can judge it. */
import { readdirSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogues/message.ts';
import type { Quantity } from '../../src/knowledge/ids.ts';
import { COMPLAINT_IDS } from '../../src/knowledge/ids.ts';
import { EQUIPMENT, ROLES } from '../../src/knowledge/schema.ts';
import { checkById } from '../../src/knowledge/trade.ts';
import type { CaseFile } from './case-file.ts';
import { readCase, readingInSi } from './case-file.ts';
import type { PlayedCase } from './person.ts';
import { playCase, tellAfterwards } from './person.ts';

const FOLDER = new URL('./', import.meta.url);
const FILES = readdirSync(FOLDER).filter((file) => file.endsWith('.yaml'));
const CASES = FILES.map((file) => [file, readCase(new URL(file, FOLDER))] as const);

const HIGHEST_CLASS = { owner: 2, technician: 3 };
const FIRST_THREE = 3;

function idsOf(messages: readonly Message[], ...kinds: Message['kind'][]): string[] {
  return [...new Set(messages.filter(({ kind }) => kinds.includes(kind)).map(({ id }) => id))];
}

/** What differs from what the file expects, a sentence each. */
function mismatches({ expect: expected, role }: CaseFile, messages: readonly Message[]): string[] {
  const result = messages.find(({ kind }) => kind === 'result');
  const cautions = idsOf(messages, 'caution');
  const asked = idsOf(messages, 'check', 'reading');
  const firstThree = (result?.belief ?? []).slice(0, FIRST_THREE).map(({ fault }) => fault);
  const wanted = expected['among first three'];
  const tooHigh = messages.filter((message) => (message.class ?? 0) > HIGHEST_CLASS[role]);
  return [
    ...(result?.outcome === expected.outcome
      ? []
      : [`the outcome is ${result?.outcome ?? 'none'} instead of ${expected.outcome}`]),
    ...(expected.fault === undefined || result?.fault === expected.fault
      ? []
      : [`the fault is ${result?.fault ?? 'none'} instead of ${expected.fault}`]),
    ...(wanted === undefined || firstThree.includes(wanted)
      ? []
      : [`${wanted} is not among the first three suspects: ${firstThree.join(', ')}`]),
    ...expected.cautions
      .filter((id) => !cautions.includes(id))
      .map((id) => `the caution ${id} was not given`),
    ...expected.asks.filter((id) => !asked.includes(id)).map((id) => `${id} was not asked`),
    ...expected['never asks'].filter((id) => asked.includes(id)).map((id) => `${id} was asked`),
    ...tooHigh.map(({ id }) => `${id} is not for the ${role} to do`),
  ];
}

/** Answers of the file that name no outcome of their check. */
function unknownFindings({ finds }: CaseFile): string[] {
  return Object.entries(finds).flatMap(([id, found]) => {
    const { outcomes, silent, quantity } = checkById(id as keyof CaseFile['finds']);
    const known = [...outcomes, ...silent, 'unsure', 'skip'].includes(found) || quantity !== undefined;
    return known ? [] : [`${id} has no outcome ${found}`];
  });
}

describe.each(CASES)('%s', (_file, file) => {
  let played: PlayedCase;
  beforeAll(() => {
    played = playCase(file);
  });
  afterAll(() => played.talk.close());

  it(file.name, () => {
    const problems = [...unknownFindings(file), ...mismatches(file, played.messages)];
    const told = `${problems.join('\n')}\n\nWhat was asked and answered:\n${played.transcript.join('\n')}`;
    expect(problems, told).toEqual([]);
  });

  it('should be a case of the complaint', () => {
    expect(played.talk.pools()[0]?.cases.map(({ complaint }) => complaint)).toEqual([file.complaint]);
  });

  it.runIf(Object.keys(file.afterwards).length > 0)('should keep the readings taken afterwards', () => {
    tellAfterwards(file, played.talk);
    const kept = (quantity: string, clean: boolean): number | undefined =>
      played.talk.pools()[0]?.readings.findLast((one) => one.quantity === quantity && one.clean === clean)
        ?.value;
    for (const [quantity, said] of Object.entries(file.afterwards))
      expect(kept(quantity, true)).toBeCloseTo(readingInSi(said), 3);
    for (const quantity of file.expect.rises satisfies Quantity[])
      expect(kept(quantity, true)).toBeGreaterThan(kept(quantity, false) ?? Infinity);
  });
});

describe('the case files together', () => {
  const all = CASES.map(([, file]) => file);
  const complaints = new Set(all.map(({ complaint }) => complaint));

  it('should hold at least 45 cases', () => {
    expect(all.length).toBeGreaterThanOrEqual(45);
  });
  it.each(COMPLAINT_IDS)('should have a case of %s', (complaint) => {
    expect(complaints).toContain(complaint);
  });
  it.each(EQUIPMENT.cleaner)('should have a case of a pool with the cleaner "%s"', (cleaner) => {
    expect(all.some(({ pool }) => pool.cleaner === cleaner)).toBe(true);
  });
  it.each(ROLES)('should have cases of a %s', (role) => {
    expect(all.some((file) => file.role === role)).toBe(true);
  });
});
