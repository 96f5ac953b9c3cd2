/** The shape of a case file: a pool, a complaint, what the person finds, and what the bot is expected to do. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import type { PressureUnit } from '../../src/calc/units.ts';
import { PRESSURE_UNITS, toPascal } from '../../src/calc/units.ts';
import type { Gauges } from '../../src/engine/case.ts';
import { CAUTION_IDS, CHECK_IDS, COMPLAINT_IDS, FAULT_IDS, QUANTITIES } from '../../src/knowledge/ids.ts';
import { EQUIPMENT, ROLES } from '../../src/knowledge/schema.ts';

const faults = z.array(z.enum(FAULT_IDS));
const checks = z.array(z.enum(CHECK_IDS));
const readings = z.partialRecord(z.enum(QUANTITIES), z.string());

const caseSchema = z.strictObject({
  name: z.string().min(10),
  /** Where the trade says so: a published source, or "common practice, no source". */
  source: z.string().min(10),
  note: z.string().optional(),
  role: z.enum(ROLES),
  pool: z.strictObject({
    cleaner: z.enum(EQUIPMENT.cleaner).optional(),
    connection: z.enum(EQUIPMENT.connection).optional(),
    canister: z.enum(EQUIPMENT.canister).optional(),
    pump: z.enum(EQUIPMENT.pump).optional(),
    filter: z.enum(EQUIPMENT.filter).optional(),
    multiport: z.enum(EQUIPMENT.multiport).optional(),
  }),
  /** Clean readings on record, each with its unit. */
  clean: readings.default({}),
  complaint: z.enum(COMPLAINT_IDS),
  /** The complaint in the person's words; chosen from the list where left out. */
  says: z.string().optional(),
  /** What each check finds; a check not named finds its first outcome, a gauge not named its clean reading or none. */
  finds: z.partialRecord(z.enum(CHECK_IDS), z.string()).default({}),
  /** Readings told unasked, in the person's words, when the first check is put. */
  volunteers: z.string().optional(),
  /** The repair that makes it run again. Nothing the person does cures it where left out. */
  'cured by': z.enum(FAULT_IDS).optional(),
  /** Repairs that this person cannot do. */
  cannot: faults.default([]),
  /** Readings taken with all working again. */
  afterwards: readings.default({}),
  expect: z.strictObject({
    outcome: z.enum(['fixed', 'visit']),
    fault: z.enum(FAULT_IDS).optional(),
    'among first three': z.enum(FAULT_IDS).optional(),
    cautions: z.array(z.enum(CAUTION_IDS)).default([]),
    asks: checks.default([]),
    'never asks': checks.default([]),
    /** Gauges that stand higher afterwards than in the case. */
    rises: z.array(z.enum(QUANTITIES)).default([]),
  }),
});
export type CaseFile = z.infer<typeof caseSchema>;

/** Reads a case file. Throws with every problem and where it is. */
export function readCase(file: URL): CaseFile {
  const parsed = caseSchema.safeParse(parse(readFileSync(file, 'utf8')));
  if (parsed.success) return parsed.data;
  const problems = parsed.error.issues.map(({ path, message }) => `  ${path.join(' › ')}: ${message}`);
  throw new Error(`${file.pathname} is not a case file:\n${problems.join('\n')}`);
}

function isPressureUnit(unit: string | undefined): unit is PressureUnit {
  return PRESSURE_UNITS.some((known) => known === unit);
}

/** A reading such as "14 psi" in SI. Throws where it is not one. */
export function readingInSi(said: string): number {
  const [, digits, unit] = /^([\d.]+) (\S.*)$/.exec(said) ?? [];
  const value = Number(digits);
  if (unit === 'turns a minute') return value;
  if (!isPressureUnit(unit)) throw new Error(`"${said}" is not a reading such as "14 psi"`);
  return toPascal(value, unit);
}

/** The clean readings of a case in SI. */
export function cleanGauges({ clean }: CaseFile): Gauges {
  return Object.fromEntries(Object.entries(clean).map(([quantity, said]) => [quantity, readingInSi(said)]));
}
