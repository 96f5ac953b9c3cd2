/** Ways of choosing the next step: the engine's own, and those it is measured against, all under the same safety rules. */
import { expectedCostOfRepair } from '../../src/calc/block-sequence.ts';
import type { Outlook } from '../../src/calc/outlook.ts';
import { handOffNow, minutesOf } from '../../src/calc/outlook.ts';
import { inSafeOrder } from '../../src/calc/safe-order.ts';
import type { Case } from '../../src/engine/case.ts';
import type { CaseModel } from '../../src/engine/model.ts';
import type { NextStep } from '../../src/engine/next.ts';
import { planOf } from '../../src/engine/plan.ts';
import type { Situation } from '../../src/engine/situation.ts';
import { mayRepair, situationOf } from '../../src/engine/situation.ts';
import type { CheckId, FaultId, Place } from '../../src/knowledge/ids.ts';
import type { Check, Fault, Role } from '../../src/knowledge/schema.ts';
import { TRADE } from '../../src/knowledge/trade.ts';

/** Chooses the next step, or undefined to hand the case on; `spent` are the person's own minutes so far. */
export type Policy = (oneCase: Case, model: CaseModel, spent: number) => NextStep | undefined;

/** Every baseline repairs what is found: a fault it may repair that is more likely than not. */
const FOUND = 0.5;
/** Every baseline hands on once a fault that it may not repair is this likely, or none is left this likely. */
const SURE_OF_ANOTHERS = 0.8;
const HOPELESS = 0.01;

interface Open {
  situation: Situation;
  role: Role;
  /** No step of a higher class may come next. */
  highestClass: number;
}

/** What a baseline does before it follows its own order: repair what was found, hand on what is not theirs. */
type Start = NextStep | 'hand-off' | undefined;

function share({ model, belief }: Situation, fault: FaultId): number {
  return belief[model.suspects.indexOf(fault)] ?? 0;
}

function mayTry({ situation, highestClass }: Open, fault: Fault): boolean {
  const index = situation.faults.indexOf(fault);
  const { onlyAbove } = situation.outlook.repairs[index]!;
  return fault.repair.class <= highestClass && share(situation, fault.id) > Math.max(onlyAbove, HOPELESS);
}

function start(open: Open): Start {
  const { situation, role } = open;
  const { model, belief, faults } = situation;
  const top = belief.indexOf(Math.max(...belief));
  const suspect = model.faults[top];
  const p = belief[top]!;
  if (suspect === undefined) return p > SURE_OF_ANOTHERS ? 'hand-off' : undefined;
  if (!mayRepair(suspect, role)) return p > SURE_OF_ANOTHERS ? 'hand-off' : undefined;
  if (p > FOUND && faults.includes(suspect) && mayTry(open, suspect))
    return { kind: 'repair', fault: suspect.id };
  return undefined;
}

function checksIn({ situation, highestClass }: Open): Check[] {
  return situation.checks.filter((check) => check.class <= highestClass);
}

function repairsIn(open: Open): Fault[] {
  const { situation } = open;
  return situation.faults
    .filter((fault) => mayTry(open, fault))
    .sort((a, b) => share(situation, b.id) - share(situation, a.id));
}

/** A baseline: the common start, then its own order. */
function baseline(own: (open: Open) => NextStep | undefined): Policy {
  return (oneCase, model) => {
    const situation = situationOf(oneCase, model);
    const { highestClass } = inSafeOrder(situation.outlook);
    const open = { situation, role: oneCase.setting.role, highestClass };
    const first = start(open);
    return first === 'hand-off' ? undefined : (first ?? own(open));
  };
}

/** The likeliest repair that is left, then the hand-off. */
function likeliestRepair(open: Open): NextStep | undefined {
  const [fault] = repairsIn(open);
  return fault && { kind: 'repair', fault: fault.id };
}

/** From the cleaner along the water to the returns, and what stands beside it where it belongs. */
const ALONG: readonly Place[] = [
  'cleaner',
  'hose',
  'canister',
  'skimmer',
  'port',
  'pool',
  'suction-line',
  'suction-valve',
  'pump-strainer',
  'pump',
  'electrics',
  'filter',
  'return-side',
  'outlet',
  'power-unit',
  'cable',
  'wall-fitting',
  'pressure-line',
  'booster',
];

/** Where a check is made: at the faults that it shows best. */
function placeOf(check: Check): number {
  const faults = check.given.map(({ faults: own }) => TRADE.faults.find(({ id }) => id === own[0])!);
  const places = faults.map(({ place }) => ALONG.indexOf(place));
  if (check.id === 'filter-pressure') return ALONG.indexOf('filter');
  if (check.id === 'pump-vacuum') return ALONG.indexOf('pump');
  return Math.max(0, Math.min(...(places.length === 0 ? [0] : places)));
}

const TRADE_ORDER: readonly CheckId[] = [...TRADE.checks]
  .sort((a, b) => a.class - b.class || placeOf(a) - placeOf(b))
  .map(({ id }) => id);

/** (a) The trade's fixed order, cleaner to returns, safe checks first. */
const fixedOrder = baseline((open) => {
  const checks = checksIn(open);
  const next = TRADE_ORDER.find((id) => checks.some((check) => check.id === id));
  return next === undefined ? likeliestRepair(open) : { kind: 'check', check: next };
});

/** (b) Whatever takes least time here and now. */
const cheapestFirst = baseline((open) => {
  const { outlook, checks, faults } = open.situation;
  const steps = [
    ...checksIn(open).map((check): [number, NextStep] => [
      minutesOf(outlook.checks[checks.indexOf(check)]!, outlook.made, outlook.setUpMinutes),
      { kind: 'check', check: check.id },
    ]),
    ...repairsIn(open).map((fault): [number, NextStep] => [
      minutesOf(outlook.repairs[faults.indexOf(fault)]!, outlook.made, outlook.setUpMinutes),
      { kind: 'repair', fault: fault.id },
    ]),
  ];
  return steps.sort(([a], [b]) => a - b)[0]?.[1];
});

/** The open check that shows a fault best. */
function bestLook(fault: Fault, checks: readonly Check[]): Check | undefined {
  const shows = ({ given, base }: Check): number => {
    const row = given.find(({ faults }) => faults.includes(fault.id))?.outcomes ?? base;
    return row.reduce((sum, p, outcome) => sum + Math.abs(p - base[outcome]!), 0);
  };
  const telling = checks.filter((check) => shows(check) > 0.5);
  return telling.sort((a, b) => shows(b) - shows(a))[0];
}

/** (c) The most probable fault first: looked for where there is a look, else repaired. */
const mostProbableFirst = baseline((open) => {
  const { situation, role } = open;
  const { model, belief } = situation;
  const suspects = model.faults
    .map((fault, cause) => ({ fault, p: belief[cause] ?? 0 }))
    .filter(({ p }) => p > HOPELESS)
    .sort((a, b) => b.p - a.p);
  for (const { fault } of suspects) {
    if (fault === undefined) continue;
    const look = bestLook(fault, checksIn(open));
    if (look !== undefined) return { kind: 'check', check: look.id };
    if (mayRepair(fault, role) && situation.faults.includes(fault) && mayTry(open, fault))
      return { kind: 'repair', fault: fault.id };
  }
  return undefined;
});

/** The outlook of somebody who repairs without asking: no checks, no looks. */
function withoutQuestions({ outlook }: Situation): Outlook {
  const none = outlook.table.lookMinutes.map(() => Infinity);
  return { ...outlook, checks: [], table: { ...outlook.table, lookMinutes: none } };
}

/** (d) Probability of cure over cost without questions, handing on at the best point, repairs in the safe order. */
const overCost: Policy = (oneCase, model) => {
  const situation = situationOf(oneCase, model);
  const outlook = withoutQuestions(situation);
  const { belief, table, setUpMinutes, made, handOff } = outlook;
  const goesOn = expectedCostOfRepair(belief, table, setUpMinutes, made, handOff);
  if (goesOn >= handOffNow(outlook) - 1e-9) return undefined;
  const { highestClass } = inSafeOrder(outlook);
  const promise = outlook.repairs.map((repair) => {
    const p = belief[repair.cause] ?? 0;
    const open = repair.class <= highestClass && p > repair.onlyAbove;
    return open ? (p * repair.cures) / minutesOf(repair, made, setUpMinutes) : 0;
  });
  const best = promise.indexOf(Math.max(...promise));
  return promise[best]! > 0 ? { kind: 'repair', fault: situation.faults[best]!.id } : undefined;
};

/** The engine's own choice. */
const own: Policy = (oneCase, model) => {
  const plan = planOf(oneCase, model);
  return plan.kind === 'hand-off' ? undefined : plan;
};

export const POLICIES = {
  padside: own,
  '(a) fixed order': fixedOrder,
  '(b) cheapest first': cheapestFirst,
  '(c) most probable first': mostProbableFirst,
  '(d) p over cost, no questions': overCost,
} as const;
export type PolicyName = keyof typeof POLICIES;
