/** The states of a visit: every state × change × person, written down a second time by hand. */
import { describe, expect, it } from 'vitest';
import type { VisitActor, VisitDeed } from '../../src/dialogues/company/visits/states.ts';
import { outcomeOf, VISIT_ACTORS, VISIT_DEEDS } from '../../src/dialogues/company/visits/states.ts';
import type { VisitState } from '../../src/dialogues/company/visits/visit.ts';
import { isEnded, VISIT_STATES } from '../../src/dialogues/company/visits/visit.ts';

/** o owner, t technician, m the technician it is assigned to, d dispatcher, a administrator. */
const LETTER: Record<VisitActor, string> = {
  owner: 'o',
  technician: 't',
  assigned: 'm',
  dispatcher: 'd',
  administrator: 'a',
};

const TABLE: Record<VisitState, Partial<Record<VisitDeed, readonly [to: VisitState, by: string]>>> = {
  new: {
    accept: ['accepted', 'tmda'],
    take: ['assigned', 't'],
    assign: ['assigned', 'da'],
    schedule: ['accepted', 'mda'],
    ask: ['new', 'tmda'],
    close: ['closed', 'mda'],
    cancel: ['cancelled', 'oda'],
  },
  accepted: {
    take: ['assigned', 't'],
    assign: ['assigned', 'da'],
    schedule: ['accepted', 'mda'],
    ask: ['accepted', 'tmda'],
    close: ['closed', 'mda'],
    cancel: ['cancelled', 'oda'],
  },
  assigned: {
    assign: ['assigned', 'da'],
    schedule: ['assigned', 'mda'],
    ask: ['assigned', 'tmda'],
    'set-out': ['on-the-way', 'mda'],
    close: ['closed', 'mda'],
    cancel: ['cancelled', 'oda'],
  },
  'on-the-way': {
    assign: ['assigned', 'da'],
    schedule: ['assigned', 'mda'],
    ask: ['on-the-way', 'tmda'],
    close: ['closed', 'mda'],
    cancel: ['cancelled', 'oda'],
  },
  closed: {},
  cancelled: {},
};

const ALL = VISIT_STATES.flatMap((state) =>
  VISIT_DEEDS.flatMap((deed) => VISIT_ACTORS.map((actor) => ({ state, deed, actor }))),
);

describe('the states of a visit', () => {
  it('should be asked about in full', () => {
    expect(ALL).toHaveLength(6 * 8 * 5);
  });

  it.each(ALL)('$state: $deed by $actor', ({ state, deed, actor }) => {
    const row = TABLE[state][deed];
    const expected =
      row === undefined ? { not: 'now' } : row[1].includes(LETTER[actor]) ? { to: row[0] } : { not: 'you' };
    expect(outcomeOf(state, deed, actor)).toEqual(expected);
  });

  it('should leave no way out of a visit that has ended', () => {
    for (const state of VISIT_STATES.filter((one) => isEnded({ state: one })))
      for (const actor of VISIT_ACTORS)
        for (const deed of VISIT_DEEDS) expect(outcomeOf(state, deed, actor)).toEqual({ not: 'now' });
  });

  it('should let every visit that is not ended be ended by the office', () => {
    for (const state of VISIT_STATES.filter((one) => !isEnded({ state: one })))
      for (const deed of ['close', 'cancel'] as const)
        expect(outcomeOf(state, deed, 'dispatcher')).toHaveProperty('to');
  });
});
