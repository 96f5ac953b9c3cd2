/** The whole of the trade's data, looked up by id. */
import { CAUTIONS } from './cautions.ts';
import { CIRCULATION_CHECKS } from './checks/circulation.ts';
import { PRESSURE_CHECKS } from './checks/pressure.ts';
import { ROBOT_CHECKS } from './checks/robot.ts';
import { SUCTION_CHECKS } from './checks/suction.ts';
import { COMPLAINTS } from './complaints.ts';
import { DEEPER_CAUSES } from './deeper-causes.ts';
import { FILTER_FAULTS } from './faults/filter.ts';
import { PRESSURE_FAULTS } from './faults/pressure.ts';
import { PUMP_FAULTS } from './faults/pump.ts';
import { ROBOT_FAULTS } from './faults/robot.ts';
import { SUCTION_FAULTS } from './faults/suction.ts';
import type { CautionId, CheckId, ComplaintId, DeeperCauseId, FaultId } from './ids.ts';
import type { Caution, Check, Complaint, Equipment, Fault, Trade, When } from './schema.ts';
import { EQUIPMENT_KEYS } from './schema.ts';

export const TRADE: Trade = {
  faults: [...SUCTION_FAULTS, ...PUMP_FAULTS, ...FILTER_FAULTS, ...PRESSURE_FAULTS, ...ROBOT_FAULTS],
  checks: [...CIRCULATION_CHECKS, ...SUCTION_CHECKS, ...PRESSURE_CHECKS, ...ROBOT_CHECKS],
  cautions: CAUTIONS,
  complaints: COMPLAINTS,
  deeperCauses: DEEPER_CAUSES,
};

const faults = new Map(TRADE.faults.map((fault) => [fault.id, fault]));
const checks = new Map(TRADE.checks.map((check) => [check.id, check]));
const cautions = new Map(TRADE.cautions.map((caution) => [caution.id, caution]));
const complaints = new Map(TRADE.complaints.map((complaint) => [complaint.id, complaint]));

function found<T>(value: T | undefined, kind: string, id: string): T {
  if (value === undefined) throw new Error(`The trade's data has no ${kind} "${id}"`);
  return value;
}

/** The fault with this id. Throws where the data lacks it, which the knowledge rules exclude. */
export const faultById = (id: FaultId): Fault => found(faults.get(id), 'fault', id);
/** The check with this id. Throws where the data lacks it, which the knowledge rules exclude. */
export const checkById = (id: CheckId): Check => found(checks.get(id), 'check', id);
/** The caution with this id. Throws where the data lacks it, which the knowledge rules exclude. */
export const cautionById = (id: CautionId): Caution => found(cautions.get(id), 'caution', id);
/** The complaint with this id. Throws where the data lacks it, which the knowledge rules exclude. */
export const complaintById = (id: ComplaintId): Complaint => found(complaints.get(id), 'complaint', id);

const behind = new Map(TRADE.deeperCauses.flatMap(({ id, of }) => of.map((fault) => [fault, id] as const)));

/** What most often lies behind a fault that comes back within weeks; undefined where nothing in particular does. */
export const deeperCauseOf = (fault: FaultId): DeeperCauseId | undefined => behind.get(fault);

/** Whether something made for this kind of equipment fits a pool; what is not known fits. */
export function fits(when: When, equipment: Equipment): boolean {
  return EQUIPMENT_KEYS.every((key) => {
    const own = equipment[key];
    return own === undefined || (when[key]?.includes(own) ?? true);
  });
}

/** How many of the conditions are open because the pool's equipment is not known. */
export function openConditions(when: When, equipment: Equipment): number {
  return EQUIPMENT_KEYS.filter((key) => when[key] !== undefined && equipment[key] === undefined).length;
}
