/** What to load for the day's visits: the parts and tools of the faults that may be met there. */
import { suspectsOf } from '../../../engine/belief.ts';
import type { SuspectId } from '../../../knowledge/ids.ts';
import { caseOf } from '../../case-view.ts';
import type { Context, Flow, Move } from '../../conversation.ts';
import type { FullCase } from '../../record.ts';
import { info, text } from '../../say.ts';
import type { Text } from '../../say.ts';
import { faultName } from '../../words.ts';
import type { Permit } from '../permit.ts';
import { saidAndBack } from '../words.ts';
import { today } from './day.ts';
import { caseBehind } from './deeds.ts';
import type { Visit } from './visit.ts';
import { dayFact, poolText } from './words.ts';

/** What is needed less often than this, over all visits of the day, stays in the store. Common practice, no source. */
export const WORTH_LOADING = 0.1;

/** A visit with its case, as far as that is still on record. */
export interface Stop {
  visit: Visit;
  found: FullCase | undefined;
}

/** The parts that go with one fault, and for which pools they may be needed. */
export interface Load {
  fault: SuspectId;
  /** Expected number of visits that need them: the sum of the suspect's probabilities. */
  need: number;
  /** The visits that may need them, the likeliest first. */
  stops: readonly { visit: Visit; p: number }[];
}

/** A pool is named for a part that it needs at least this likely. */
const WORTH_NAMING = 0.05;

/** What to load for some visits, what is needed most first; only what is likelier than `WORTH_LOADING`. */
export function loadFor(stops: readonly Stop[]): Load[] {
  const needs = new Map<SuspectId, { visit: Visit; p: number }[]>();
  for (const { visit, found } of stops) {
    if (found === undefined) continue;
    for (const { fault, p } of suspectsOf(caseOf(found.pool, found.record)))
      needs.set(fault, [...(needs.get(fault) ?? []), { visit, p }]);
  }
  return [...needs]
    .map(([fault, each]) => ({
      fault,
      need: each.reduce((sum, { p }) => sum + p, 0),
      stops: each.filter(({ p }) => p >= WORTH_NAMING).sort((a, b) => b.p - a.p),
    }))
    .filter(({ need }) => need >= WORTH_LOADING)
    .sort((a, b) => b.need - a.need);
}

function line({ fault, need, stops }: Load): Text {
  const pools = stops.map(({ visit, p }) =>
    text('visits:truck.for', { pool: poolText(visit), percent: Math.round(p * 100) }),
  );
  const bring = text(`faults:${fault}.bring`);
  return text('visits:truck.line', {
    bring,
    fault: faultName(fault),
    need: Math.round(need * 10) / 10,
    pools,
  });
}

/** What to load for the day of the person who asks. */
export function truckList(given: Permit, then: Flow, { facts }: Context): Move {
  const day = today(facts.now, given.company);
  const stops = facts.office.visits
    .ownDay(given, day)
    .map((visit): Stop => ({ visit, found: caseBehind({ given, visit }, facts) }));
  if (stops.length === 0) return saidAndBack(then, info('truck', text('visits:today.none')));
  const head = text('visits:truck.head', {
    day: dayFact(day),
    count: stops.length,
    percent: Math.round(WORTH_LOADING * 100),
  });
  const lines = loadFor(stops).map(line);
  return saidAndBack(then, info('truck', head, ...lines, text('visits:truck.always')));
}
