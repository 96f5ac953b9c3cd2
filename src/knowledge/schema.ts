/** Shapes of the trade's data. Everything in this folder is checked against them at start-up. */
import { z } from 'zod';
import {
  CAUTION_IDS,
  CHECK_IDS,
  COMPLAINT_IDS,
  DEEPER_CAUSE_IDS,
  FAULT_IDS,
  PLACES,
  QUANTITIES,
} from './ids.ts';

export const ROLES = ['owner', 'technician'] as const;
export type Role = (typeof ROLES)[number];

/** The set-up questions of a pool and the values each may take. */
export const EQUIPMENT = {
  cleaner: ['suction', 'pressure-booster', 'pressure-return', 'robotic', 'none'],
  connection: ['skimmer', 'port'],
  canister: ['yes', 'no'],
  pump: ['single-speed', 'two-speed', 'variable-speed'],
  filter: ['sand', 'cartridge', 'de'],
  multiport: ['yes', 'no'],
} as const;
export type EquipmentKey = keyof typeof EQUIPMENT;
export const EQUIPMENT_KEYS = Object.keys(EQUIPMENT) as EquipmentKey[];
/** What is known of one pool's equipment; a missing key is not known. */
export type Equipment = { [K in EquipmentKey]?: (typeof EQUIPMENT)[K][number] };

/** Numbers that sharpen the estimates of a pool where they are known, each with the values it may take, SI. */
export const FIGURES = {
  volume: { from: 0.5, to: 5000 },
  'filter-area': { from: 0.05, to: 100 },
  'rated-power': { from: 50, to: 10_000 },
} as const;
export type FigureKey = keyof typeof FIGURES;
export const FIGURE_KEYS = Object.keys(FIGURES) as FigureKey[];
/** Volume in m³, filter area in m², rated power in W; a missing key is not known. */
export type Figures = Partial<Record<FigureKey, number>>;

/** Applies only where the pool's equipment is one of these, or is not known. */
const whenSchema = z.partialRecord(z.enum(EQUIPMENT_KEYS), z.array(z.string()).min(1).readonly());
export type When = z.infer<typeof whenSchema>;

/** What is going on at the pad that matters to safety. */
const padSchema = z.object({
  pump: z.enum(['running', 'off']),
  lid: z.enum(['closed', 'open']),
  hose: z.enum(['in', 'out']),
  pressure: z.enum(['up', 'released']),
  robot: z.enum(['plugged', 'unplugged']),
  power: z.enum(['on', 'locked']),
});
export type Pad = z.infer<typeof padSchema>;
const padChangeSchema = padSchema.partial();
/** Some parts of the pad's state. */
export type PadChange = z.infer<typeof padChangeSchema>;

/** The physical parameter that a fault moves; section "hydraulics" of the model turns it into gauge readings. */
export const EFFECTS = [
  'none',
  'cleaner-branch-blocked',
  'cleaner-branch-closed',
  'cleaner-branch-bypassed',
  'suction-blocked',
  'air-at-pump',
  'air-in-hose',
  'pump-curve-shrinks',
  'pump-speed-low',
  'pump-speed-sags',
  'no-flow',
  'filter-blocked',
  'filter-torn',
  'return-blocked',
  'gauge-stuck',
  'cleaner-pressure-low',
  'cleaner-pressure-off',
] as const;
export type Effect = (typeof EFFECTS)[number];

const stepSchema = z.object({
  /** How much the step exposes the person: 0 look, 1 hands in water or on the hose, 2 pump off, 3 technician, 4 electrician. */
  class: z.union([z.literal(0), z.literal(1), z.literal(2), z.literal(3), z.literal(4)]),
  minutes: z.number().positive().max(240),
  cautions: z.array(z.object({ id: z.enum(CAUTION_IDS), when: whenSchema.optional() })).readonly(),
  needs: padChangeSchema,
  leaves: padChangeSchema,
});
export type Step = z.infer<typeof stepSchema>;

export const repairSchema = stepSchema.extend({
  /** How surely the repair cures its fault where the fault is there, 0 to 1. */
  cures: z.number().min(0.5).max(1),
  /** It uses up a part, so it is proposed on a finding and not tried blind. */
  part: z.boolean(),
});
export type Repair = z.infer<typeof repairSchema>;

export const faultSchema = z.object({
  id: z.enum(FAULT_IDS),
  place: z.enum(PLACES),
  /** 5 very common … 1 rare. */
  often: z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4), z.literal(5)]),
  effect: z.enum(EFFECTS),
  who: z
    .array(z.enum([...ROLES, 'electrician']))
    .min(1)
    .readonly(),
  when: whenSchema,
  /** How readily this fault shows as each complaint, 0 to 1; the rest get a small share. */
  complaints: z.partialRecord(z.enum(COMPLAINT_IDS), z.number().positive().max(1)),
  repair: repairSchema,
});
export type Fault = z.infer<typeof faultSchema>;

const distribution = z.array(z.number().min(0).max(1)).readonly();

export const checkSchema = stepSchema.extend({
  id: z.enum(CHECK_IDS),
  when: whenSchema,
  /** Complaints that already say what this check would ask. */
  saidBy: z.array(z.enum(COMPLAINT_IDS)).readonly(),
  /** First outcome is the normal one. Empty for a check answered with a number. */
  outcomes: z.array(z.string()).readonly(),
  /** Outcomes that tell nothing of any fault, such as a lid one cannot see through. */
  silent: z.array(z.string()).readonly(),
  /** Number read or counted. */
  quantity: z.enum(QUANTITIES).optional(),
  /** Probability of each outcome where no listed fault is present. */
  base: distribution,
  /** Probability of each outcome where one of the named faults is the cause. */
  given: z
    .array(z.object({ faults: z.array(z.enum(FAULT_IDS)).min(1).readonly(), outcomes: distribution }))
    .readonly(),
});
export type Check = z.infer<typeof checkSchema>;

/** The parts of the pad's state that a caution guards: when one of them changes, the caution is due again. */
export const cautionSchema = z.object({
  id: z.enum(CAUTION_IDS),
  guards: z.array(z.enum(['pump', 'lid', 'hose', 'pressure', 'robot', 'power'])).readonly(),
  /** What the pad's state is once the person has done what the caution says. */
  brings: padChangeSchema,
});
export type Caution = z.infer<typeof cautionSchema>;

export const complaintSchema = z.object({
  id: z.enum(COMPLAINT_IDS),
  /** About how the cleaner behaves, and so of the circulation only where the circulation drives the cleaner. */
  ofCleaner: z.boolean(),
  /** One of the first few offered. */
  common: z.boolean(),
  when: whenSchema,
  /** Equipment worth asking for before the first step. */
  asks: z.array(z.enum(EQUIPMENT_KEYS)).readonly(),
});
export type Complaint = z.infer<typeof complaintSchema>;

export const deeperCauseSchema = z.object({
  id: z.enum(DEEPER_CAUSE_IDS),
  /** The faults that it brings back. */
  of: z.array(z.enum(FAULT_IDS)).min(1).readonly(),
});
export type DeeperCause = z.infer<typeof deeperCauseSchema>;

export interface Trade {
  faults: readonly Fault[];
  checks: readonly Check[];
  cautions: readonly Caution[];
  complaints: readonly Complaint[];
  deeperCauses: readonly DeeperCause[];
}
