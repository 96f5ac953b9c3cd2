/** Equipment, baselines and readings for property tests: ordinary ones and absurd ones. */
import fc from 'fast-check';
import { EQUIPMENT, type Equipment } from '../../../src/knowledge/schema.ts';
import { PA_PER_INHG, PA_PER_PSI } from '../../../src/calc/units.ts';

const options: { requiredKeys: [] } = { requiredKeys: [] };

export const anyEquipment: fc.Arbitrary<Equipment> = fc.record(
  {
    cleaner: fc.constantFrom(...EQUIPMENT.cleaner),
    connection: fc.constantFrom(...EQUIPMENT.connection),
    pump: fc.constantFrom(...EQUIPMENT.pump),
    filter: fc.constantFrom(...EQUIPMENT.filter),
  },
  options,
);

const absurd = fc.constantFrom(Number.NaN, Infinity, -Infinity, -1, 1e300, 5e-324, 0);

function pressure(from: number, to: number, unit: number): fc.Arbitrary<number> {
  const ordinary = fc.double({ min: from, max: to, noNaN: true }).map((value) => value * unit);
  return fc.oneof({ weight: 30, arbitrary: ordinary }, { weight: 1, arbitrary: absurd });
}

export const anyReadings = fc.record(
  {
    filterPressurePa: pressure(0, 35, PA_PER_PSI),
    pumpVacuumPa: pressure(0, 22, PA_PER_INHG),
    cleanerSuctionPa: pressure(0, 10, PA_PER_INHG),
  },
  options,
);

const anyBaseline = fc.record(
  {
    filterPressurePa: pressure(3, 30, PA_PER_PSI),
    pumpVacuumPa: pressure(1, 15, PA_PER_INHG),
    cleanerSuctionPa: pressure(0.3, 6, PA_PER_INHG),
    speedRatio: fc.constantFrom(0.5, 0.8, 1),
  },
  options,
);
export const anyBaselines = fc.array(anyBaseline, { maxLength: 3 });

export const anyFacts = fc.record(
  {
    ratedPowerW: fc.double({ min: 300, max: 2300, noNaN: true }),
    filterAreaM2: fc.double({ min: 0.1, max: 50, noNaN: true }),
    pumpAbovePoolM: fc.double({ min: -2, max: 2, noNaN: true }),
  },
  options,
);
