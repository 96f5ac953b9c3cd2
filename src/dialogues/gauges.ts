/** Taking readings: are they possible, what do they say, where are they kept. */
import { fromPascal, PRESSURE_UNITS, toM3PerS, toPascal } from '../calc/units.ts';
import { isPossible, likelySlips } from '../engine/gauge.ts';
import type { FlowReading, GaugeReading, ReadingUnit, SpokenReading } from './event.ts';
import type { PoolRecord, Reading } from './record.ts';
import type { Say } from './say.ts';
import { info, text } from './say.ts';

/** A spoken value in SI. */
export function inSi(value: number, unit: ReadingUnit): number {
  return unit === 'turns/min' ? value : toPascal(value, unit);
}

function inUnit(value: number, unit: ReadingUnit): number {
  return unit === 'turns/min' ? value : fromPascal(value, unit);
}

/** The reading as it is kept: SI, with the words of the person. */
export function keptReading(spoken: GaugeReading, clean: boolean, at: number): Reading {
  const said = `${spoken.value} ${spoken.unit}`;
  return { quantity: spoken.quantity, value: inSi(spoken.value, spoken.unit), said, clean, at };
}

/** Whether it is a reading that checks ask for. */
export function isGauge(reading: SpokenReading): reading is GaugeReading {
  return reading.quantity !== 'flow';
}

function flowSay({ value, unit }: FlowReading, pool: PoolRecord | undefined): Say {
  const flow = { measure: value, unit, digits: 1 };
  const volumeM3 = pool?.figures.volume;
  const flowM3PerS = toM3PerS(value, unit);
  if (volumeM3 === undefined || flowM3PerS <= 0)
    return info('flow', text('dialogue:readings.flow', { flow }));
  const turnover = { measure: volumeM3 / flowM3PerS / 3600, unit: 'h', digits: 1 };
  return info('flow', text('dialogue:readings.flow-turnover', { flow, turnover }));
}

/** What is said to the flows of a message: no fault is found by them, so they are said back and not kept. */
export function flowSays(spoken: readonly SpokenReading[], pool: PoolRecord | undefined): Say[] {
  return spoken.flatMap((reading) =>
    reading.quantity === 'flow' && reading.earlier !== true ? [flowSay(reading, pool)] : [],
  );
}

/** The readings of a message that are for now, and the first among them that cannot be right. */
export function sorted(spoken: readonly SpokenReading[]): {
  good: GaugeReading[];
  doubtful?: GaugeReading;
} {
  const present = spoken.filter(isGauge).filter((reading) => reading.earlier !== true);
  const impossible = (reading: GaugeReading): boolean =>
    !isPossible(reading.quantity, inSi(reading.value, reading.unit));
  const doubtful = present.find(impossible);
  const good = present.filter((reading) => !impossible(reading));
  return doubtful === undefined ? { good } : { good, doubtful };
}

/** Values that the person may have meant, in the unit they used. */
export function slipsOf(spoken: GaugeReading): number[] {
  const unit = PRESSURE_UNITS.some((known) => known === spoken.unit) ? spoken.unit : 'turns/min';
  const slips = likelySlips(spoken.quantity, inSi(spoken.value, unit)).map((slip) => inUnit(slip, unit));
  return slips.map((slip) => Number(slip.toPrecision(3)));
}
