/** Every repair is for somebody who may do it, and for nobody who may not. */
import type { Fault } from '../schema.ts';
import type { Breach, Rule } from './breach.ts';

/** The highest class of step that each may do: 2 pump off, 3 technician with tools, 4 licensed electrician. */
const HIGHEST_CLASS: Record<Fault['who'][number], number> = { owner: 2, technician: 3, electrician: 4 };

function misplaced({ id, who, repair }: Fault): Breach[] {
  const path = `faults.${id}.who`;
  const barred = who.filter((actor) => repair.class > HIGHEST_CLASS[actor]);
  const forbidden = barred.map((actor) => ({
    path,
    message: `a repair of class ${repair.class} is not for the ${actor}`,
    tip: 'Take the actor out, or describe a repair of a lower class.',
  }));
  if (barred.length < who.length) return forbidden;
  const tip = 'Name at least one actor who may do the repair.';
  return [...forbidden, { path, message: 'nobody named may do the repair', tip }];
}

export const faultsHaveActor: Rule = ({ faults }) => faults.flatMap(misplaced);
