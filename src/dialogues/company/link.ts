/** The links that invite: their form, how long they are good for, and how guessing is slowed. */
import { DAY_MS, MINUTE_MS } from '../../calc/units.ts';

/** What the payload of an inviting link begins with; at least 22 characters of randomness follow. */
export const LINK_PREFIX = 'j-';

/** How long an invitation can be used: that of an owner has to outlive the post. */
export const OWNER_LINK_MS = 90 * DAY_MS;
export const STAFF_LINK_MS = 7 * DAY_MS;

/** Links that do not open which a person may try before having to wait between tries. */
export const OPEN_TRIES = 10;
const FIRST_WAIT_MS = MINUTE_MS;
const LONGEST_WAIT_MS = DAY_MS;

/** How long a person has to wait after so many failed tries, milliseconds: a minute, then twice as long each time. */
export function waitAfter(failed: number): number {
  if (failed < OPEN_TRIES) return 0;
  return Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(failed - OPEN_TRIES, 20));
}

/** Whether a payload is meant as an invitation. */
export function isInviting(payload: string): boolean {
  return payload.startsWith(LINK_PREFIX);
}
