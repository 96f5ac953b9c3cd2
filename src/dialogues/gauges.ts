/** Taking readings: are they possible, what do they say, where are they kept. */
import { fromPascal, PRESSURE_UNITS, toPascal } from '../calc/units.ts';
import { isPossible, likelySlips } from '../engine/gauge.ts';
import type { ReadingUnit, SpokenReading } from './event.ts';
import type { Reading } from './record.ts';

/** A spoken value in SI. */
export function inSi(value: number, unit: ReadingUnit): number {
  return unit === 'turns/min' ? value : toPascal(value, unit);
}

function inUnit(value: number, unit: ReadingUnit): number {
  return unit === 'turns/min' ? value : fromPascal(value, unit);
}

/** The reading as it is kept: SI, with the words of the person. */
export function keptReading(spoken: SpokenReading, clean: boolean, at: number): Reading {
  const said = `${spoken.value} ${spoken.unit}`;
  return { quantity: spoken.quantity, value: inSi(spoken.value, spoken.unit), said, clean, at };
}

/** The readings of a message that are for now, and the first among them that cannot be right. */
export function sorted(spoken: readonly SpokenReading[]): {
  good: SpokenReading[];
  doubtful?: SpokenReading;
} {
  const present = spoken.filter((reading) => reading.earlier !== true);
  const impossible = (reading: SpokenReading): boolean =>
    !isPossible(reading.quantity, inSi(reading.value, reading.unit));
  const doubtful = present.find(impossible);
  const good = present.filter((reading) => !impossible(reading));
  return doubtful === undefined ? { good } : { good, doubtful };
}

/** Values that the person may have meant, in the unit they used. */
export function slipsOf(spoken: SpokenReading): number[] {
  const unit = PRESSURE_UNITS.some((known) => known === spoken.unit) ? spoken.unit : 'turns/min';
  const slips = likelySlips(spoken.quantity, inSi(spoken.value, unit)).map((slip) => inUnit(slip, unit));
  return slips.map((slip) => Number(slip.toPrecision(3)));
}
