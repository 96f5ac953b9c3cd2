/** Every complaint is shown by some fault, for each kind of cleaner that it fits. */
import type { Complaint, Fault } from '../schema.ts';
import { EQUIPMENT } from '../schema.ts';
import type { Rule } from './breach.ts';
import { whenOf, canMeet } from './breach.ts';

type Cleaner = (typeof EQUIPMENT.cleaner)[number];

/** A robot does not hang on the circulation: there only its own faults show in how it behaves. */
function shows(fault: Fault, complaint: Complaint, cleaner: Cleaner): boolean {
  if (complaint.ofCleaner && cleaner === 'robotic' && fault.when.cleaner === undefined) return false;
  return fault.complaints[complaint.id] !== undefined && canMeet(fault.when, whenOf({ cleaner }));
}

export const complaintsShown: Rule = ({ complaints, faults }) =>
  complaints.flatMap((complaint) =>
    EQUIPMENT.cleaner
      .filter((cleaner) => canMeet(complaint.when, whenOf({ cleaner })))
      .filter((cleaner) => !faults.some((fault) => shows(fault, complaint, cleaner)))
      .map((cleaner) => ({
        path: `complaints.${complaint.id}`,
        message: `no fault of a pool with the cleaner "${cleaner}" shows as it`,
        tip: 'List the complaint with such a fault, or narrow the condition of the complaint.',
      })),
  );
