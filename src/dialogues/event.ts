/** What a person's message means to the conversation, once the language layer has understood it. */
import type { PressureUnit } from '../calc/units.ts';
import type { ComplaintId, EmergencyId, Quantity, SuspectId } from '../knowledge/ids.ts';

export const LOCALES = ['en', 'es'] as const;
export type Locale = (typeof LOCALES)[number];

/** Words that work at any moment, whatever is being asked. */
export const COMMANDS = [
  'start',
  'help',
  'why',
  'back',
  'skip',
  'unsure',
  'repeat',
  'stop',
  'new',
  'pool',
  'pools',
  'readings',
  'estimates',
  'history',
  'language',
  'privacy',
  'erase',
  'flow',
  'volume',
  'turnover',
  'headloss',
  'speed',
  'de',
  'backwash',
  'soak',
  'invite',
  'invitations',
  'people',
  'company',
  'staff',
  'import',
  'export',
  'send',
  'find',
  'leave',
  'zone',
  'report',
  'queue',
  'today',
  'truck',
  'close',
] as const;
export type CommandId = (typeof COMMANDS)[number];

/** What the buttons do that stand for longer than a question does, as those beneath a message to a whole office. */
export const ACTS = [
  'revoke-invitation',
  'reminder-off',
  'runs-well',
  'runs-ill',
  'accept-visit',
  'assign-visit',
  'schedule-visit',
  'ask-owner',
  'answer-company',
  'open-visit',
  'set-out',
  'close-visit',
  'cancel-visit',
] as const;
export type ActId = (typeof ACTS)[number];

export type ReadingUnit = PressureUnit | 'turns/min';

export interface SpokenReading {
  quantity: Quantity;
  value: number;
  unit: ReadingUnit;
  /** The person gave a range or said that the needle moves. */
  unsteady?: boolean;
  /** The person told of an earlier value ("was 13"), not the one on the gauge now. */
  earlier?: boolean;
}

/** What a technician said of a visit that is done, as far as it was said. */
export interface SaidClosing {
  /** Causes that the words fit, the best first. */
  causes: readonly SuspectId[];
  isRepaired?: boolean;
  /** Parts in the technician's own words. */
  parts?: string;
  minutes?: number;
  readings: readonly SpokenReading[];
  /** The readings were taken with everything clean and working. */
  clean: boolean;
}

export type Understood =
  | { kind: 'emergency'; id: EmergencyId }
  | { kind: 'command'; id: CommandId; argument?: string }
  | { kind: 'readings'; readings: SpokenReading[] }
  | { kind: 'answer'; option: string }
  | { kind: 'complaint'; id: ComplaintId }
  /** A standing button; `about` is the id of what it stands under. */
  | { kind: 'act'; act: ActId; about: string }
  /** A visit is told to be done, or something of it where that is asked. */
  | { kind: 'closing'; said: SaidClosing }
  /** A file that was sent and is kept for now. */
  | { kind: 'file'; upload: string; name: string }
  | { kind: 'unclear'; text: string };

/** What the conversation is waiting for when the message comes. */
export interface Asked {
  /** Id of the question, check, caution or repair on the screen. */
  id: string;
  /** A number is wanted. */
  reading?: Quantity;
  options: readonly { id: string; label: string }[];
}
