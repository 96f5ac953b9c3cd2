/** What another pump speed changes, by the affinity laws. */
import { dutyAtSpeed } from '../../calc/pump-curve.ts';
import { energyWh, runningCost } from '../../calc/running-cost.ts';
import type { Text } from '../say.ts';
import { text } from '../say.ts';
import { givenText, rounded, shownIn } from './amount-words.ts';
import type { Values } from './fields.ts';
import { amountOf } from './fields.ts';
import type { Unit } from './units.ts';
import { UNITS } from './units.ts';

/** The new speed over the old one. A share is one already; turns a minute are told from it by their unit. */
function speedRatio(values: Values): number {
  const to = values.to;
  const share = amountOf(values, 'to') ?? NaN;
  const isShare = to !== undefined && to !== null && 'unit' in to && to.unit === '%';
  return isShare ? share : share / (amountOf(values, 'from') ?? NaN);
}

function unitGiven(values: Values, id: string): Unit | undefined {
  const given = values[id];
  return given !== undefined && given !== null && 'unit' in given ? given.unit : undefined;
}

/** One line for an amount that was given: what it is, and what it becomes, in the unit it was given in. */
function becomes(values: Values, id: 'flow' | 'head' | 'power', after: number): Text[] {
  const unit = unitGiven(values, id);
  const before = givenText(values[id]);
  if (unit === undefined || before === undefined) return [];
  return [text(`calculators:speed.becomes.${id}`, { before, after: shownIn(after, unit) })];
}

function costLines(values: Values, powerBeforeW: number, powerAfterW: number): Text[] {
  const seconds = amountOf(values, 'hours');
  if (seconds === undefined || !Number.isFinite(powerBeforeW)) return [];
  const hours = seconds / UNITS.h;
  const energies = [powerBeforeW, powerAfterW].map((powerW) => energyWh(powerW, hours));
  const [before = 0, after = 0] = energies;
  const price = amountOf(values, 'price');
  const kWh = (wattHours: number): Text => shownIn(wattHours * UNITS.h, 'kWh');
  const energy = text('calculators:speed.energy', {
    hours: shownIn(seconds, 'h'),
    before: kWh(before),
    after: kWh(after),
  });
  if (price === undefined) return [energy];
  const [costBefore, costAfter] = energies.map((wattHours) => rounded(runningCost(wattHours, price)));
  return [energy, text('calculators:speed.cost', { before: costBefore ?? 0, after: costAfter ?? 0, price })];
}

/** The shares by the affinity laws, what was given at the new speed, and energy and cost a day. */
export function speedResult(values: Values): Text[] {
  const ratio = speedRatio(values);
  const before = {
    flowM3PerS: amountOf(values, 'flow') ?? NaN,
    headM: amountOf(values, 'head') ?? NaN,
    powerW: amountOf(values, 'power') ?? NaN,
  };
  const after = dutyAtSpeed(before, ratio);
  const share = (of: number): Text => shownIn(of, '%');
  const shares = dutyAtSpeed({ flowM3PerS: 1, headM: 1, powerW: 1 }, ratio);
  return [
    text('calculators:speed.shares', {
      speed: share(ratio),
      flow: share(shares.flowM3PerS),
      head: share(shares.headM),
      power: share(shares.powerW),
    }),
    ...becomes(values, 'flow', after.flowM3PerS),
    ...becomes(values, 'head', after.headM),
    ...becomes(values, 'power', after.powerW),
    ...costLines(values, before.powerW, after.powerW),
    text('calculators:speed.real'),
  ];
}
