/** What readings say, in one or two sentences: each against the clean one, then where the trouble lies. */
import { suspectsOf } from '../engine/belief.ts';
import type { Case, Gauges } from '../engine/case.ts';
import { bandOf, referenceFor } from '../engine/gauge.ts';
import { effectLikelihoods } from '../engine/readings.ts';
import type { Quantity, SuspectId } from '../knowledge/ids.ts';
import { isQuantity, SOMETHING_ELSE } from '../knowledge/ids.ts';
import type { Effect } from '../knowledge/schema.ts';
import { EFFECTS } from '../knowledge/schema.ts';
import { faultById } from '../knowledge/trade.ts';
import { knownOf } from './case-view.ts';
import type { PoolRecord } from './record.ts';
import { cleanBaseline } from './record.ts';
import type { Text } from './say.ts';
import { text } from './say.ts';
import { faultName, judgedAgainst } from './words.ts';

/** Where on the water's path an effect lies. */
const SIDE: Record<Effect, string> = {
  none: 'clear',
  'gauge-stuck': 'clear',
  'cleaner-pressure-low': 'clear',
  'cleaner-pressure-off': 'clear',
  'filter-blocked': 'after-pump',
  'return-blocked': 'after-pump',
  'suction-blocked': 'before-pump',
  'cleaner-branch-blocked': 'before-pump',
  'cleaner-branch-closed': 'before-pump',
  'air-at-pump': 'air',
  'air-in-hose': 'air',
  'pump-curve-shrinks': 'weak-pump',
  'pump-speed-low': 'weak-pump',
  'pump-speed-sags': 'weak-pump',
  'cleaner-branch-bypassed': 'beside-cleaner',
  'filter-torn': 'torn',
  'no-flow': 'no-flow',
};

/** A side is named where it is this likely. */
const SURE_ENOUGH = 0.6;
/** A fault is named where it has this share of its side. */
const MOST_OF_ITS_SIDE = 0.5;

interface Suspected {
  effect: Effect;
  p: number;
  fault?: SuspectId;
}

function suspectedInCase(oneCase: Case): Suspected[] {
  return suspectsOf(oneCase).map(({ fault, p }) => {
    const effect = fault === SOMETHING_ELSE ? 'none' : faultById(fault).effect;
    return { effect, p, fault };
  });
}

/** Without a case every effect counts alike before the readings. */
function suspectedAtLarge(gauges: Gauges, pool: PoolRecord): Suspected[] {
  const known = knownOf(pool);
  const likelihoods = effectLikelihoods(gauges, known);
  const sum = EFFECTS.reduce((total, effect) => total + likelihoods[effect], 0);
  return EFFECTS.map((effect) => ({ effect, p: likelihoods[effect] / sum }));
}

/** Where the trouble lies by all that is suspected, if that is clear enough to say. */
function meaning(suspected: readonly Suspected[]): Text[] {
  const shares = new Map<string, number>();
  for (const { effect, p } of suspected) shares.set(SIDE[effect], (shares.get(SIDE[effect]) ?? 0) + p);
  const [side, share] = [...shares].sort((a, b) => b[1] - a[1])[0] ?? ['clear', 0];
  if (side === 'clear' || share < SURE_ENOUGH) return [];
  const [first] = suspected.filter(({ effect }) => SIDE[effect] === side).sort((a, b) => b.p - a.p);
  const named = first?.fault !== undefined && first.p >= MOST_OF_ITS_SIDE * share;
  const likely = named
    ? [text('dialogue:verdict.most-likely', { fault: faultName(first.fault ?? SOMETHING_ELSE) })]
    : [];
  return [text(`dialogue:verdict.side.${side}`), ...likely];
}

/** A reading against the clean one. */
function comparison(quantity: Quantity, value: number, baseline: Gauges): Text {
  const band = bandOf(quantity, value, baseline);
  const difference = value - referenceFor(quantity, baseline).value;
  const words = band === 'zero' || band === 'normal' ? band : difference > 0 ? 'over' : 'under';
  return text(`dialogue:verdict.${words}`, {
    gauge: text(`checks:${quantity}.name`),
    reading: { quantity, value },
    difference: { quantity, value: Math.abs(difference) },
    against: judgedAgainst(quantity, baseline),
  });
}

/** The verdict on readings just taken. With the case they belong to, all that is known of it counts too. */
export function verdictOn(gauges: Gauges, pool: PoolRecord, oneCase?: Case): Text[] {
  const baseline = cleanBaseline(pool);
  const compared = Object.entries(gauges).flatMap(([id, value]) =>
    isQuantity(id) ? [comparison(id, value, baseline)] : [],
  );
  const suspected = oneCase === undefined ? suspectedAtLarge(gauges, pool) : suspectedInCase(oneCase);
  return [...compared, ...meaning(suspected)];
}
