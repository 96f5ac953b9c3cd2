/** What a person's message means to the conversation, once the language layer has understood it. */
import type { FlowUnit, PressureUnit } from '../calc/units.ts';
import type { CheckId, ComplaintId, EmergencyId, Quantity, SuspectId } from '../knowledge/ids.ts';

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
  'voice',
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

interface Said {
  value: number;
  /** The person gave a range or said that the needle moves. */
  unsteady?: boolean;
  /** The person told of an earlier value ("was 13"), not the one on the gauge now. */
  earlier?: boolean;
}

/** A reading that checks ask for. */
export interface GaugeReading extends Said {
  quantity: Quantity;
  unit: ReadingUnit;
}

/** A flow meter's reading, which no check asks for. */
export interface FlowReading extends Said {
  quantity: 'flow';
  unit: FlowUnit;
}

export type SpokenReading = GaugeReading | FlowReading;
export type Measured = SpokenReading['quantity'];

/** What was seen at a check, asked for or not. */
export interface Finding {
  check: CheckId;
  outcome: string;
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

/** Several things told at once, in any order. `result`: how the repair on the screen went. */
export interface ToldTogether {
  kind: 'findings';
  findings: Finding[];
  readings: SpokenReading[];
  result?: string;
}

/** What is wrong, with what was read or seen, all in one breath. */
export interface ToldTrouble {
  kind: 'trouble';
  complaint: ComplaintId;
  findings: Finding[];
  readings: SpokenReading[];
}

export type Understood =
  | { kind: 'emergency'; id: EmergencyId }
  | { kind: 'command'; id: CommandId; argument?: string }
  | { kind: 'readings'; readings: SpokenReading[] }
  | ToldTogether
  | { kind: 'answer'; option: string }
  | { kind: 'complaint'; id: ComplaintId }
  | ToldTrouble
  /** A standing button; `about` is the id of what it stands under. */
  | { kind: 'act'; act: ActId; about: string }
  /** A visit is told to be done, or something of it where that is asked. */
  | { kind: 'closing'; said: SaidClosing }
  /** A file that was sent and is kept for now. */
  | { kind: 'file'; upload: string; name: string }
  | { kind: 'unclear'; text: string };

/** What a recording was made out to mean, and may have meant. */
export interface Heard {
  kind: 'heard';
  meant: Understood;
  /** What it may have been instead, likeliest first. */
  others: readonly Understood[];
  /** It was made out in quiet and fits well. */
  isSure: boolean;
}

/** What may come to a conversation. */
export type Event = Understood | Heard;

/** What the conversation is waiting for when the message comes. */
export interface Asked {
  /** Id of the question, check, caution or repair on the screen. */
  id: string;
  /** A number is wanted. */
  reading?: Measured;
  options: readonly { id: string; label: string }[];
}
