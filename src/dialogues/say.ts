/** What the bot says: keys and facts, which the language layer turns into words. */
import type { Suspicion } from '../engine/belief.ts';
import type { FaultId, Quantity } from '../knowledge/ids.ts';
import type { ActId, Locale } from './event.ts';

/** A text by its key, with facts to fill in; facts may be texts themselves, or lists of them. */
export interface Text {
  key: string;
  facts?: Record<string, Fact>;
}
export type Fact = string | number | Text | readonly Text[] | Amount | Measure | Moment | Day | Digits;
/** A reading in SI, shown in its customary unit. */
export interface Amount {
  quantity: Quantity;
  value: number;
}
/** A number in the unit it is shown in. */
export interface Measure {
  measure: number;
  unit: string;
  digits: number;
}
/** A number digit by digit, "one six": so that sixteen is never taken for sixty. */
export interface Digits {
  apart: number;
}
/** A point in time, milliseconds since 1970. */
export interface Moment {
  at: number;
}
/** A day, milliseconds since 1970. */
export interface Day {
  day: number;
}

export type SayKind =
  | 'question'
  | 'check'
  | 'reading'
  | 'caution'
  | 'repair'
  | 'info'
  | 'result'
  | 'brief'
  | 'picture'
  | 'file'
  | 'error';

export interface Option {
  id: string;
  label: Text;
  /** Offered only after the first few, where room is short. */
  folded?: boolean;
}

export const OUTCOMES = ['fixed', 'visit', 'emergency', 'stopped'] as const;
export type CaseOutcome = (typeof OUTCOMES)[number];

/** A link as a code to be scanned. */
export interface LinkCode {
  draw: 'link-code';
  /** What a camera reads from it. */
  address: string;
  /** What a person reads beneath it. */
  caption: string;
}

/** Figures as a picture: large numbers, and bars. */
export interface FigureSheet<Words> {
  draw: 'figures';
  title: Words;
  subtitle: Words;
  numbers: readonly { label: Words; value: Words }[];
  charts: readonly { title: Words; bars: readonly Bar<Words>[] }[];
}
export interface Bar<Words> {
  label: Words;
  /** Not negative. */
  value: number;
  /** Said beside it. */
  note?: Words;
}

/** A picture, drawn when it is delivered. */
export type Picture<Words = Text> = LinkCode | FigureSheet<Words>;

export type Cell<Words> = Words | string | number;

/** A file, written when it is delivered. */
export type FileOut<Words = Text> =
  | { holds: 'pools'; company: string; name: string }
  | { holds: 'table'; name: string; lines: readonly (readonly Cell<Words>[])[] };

export interface Say {
  kind: SayKind;
  /** What it is: the id of a check, caution, fault or question. */
  id: string;
  /** Paragraphs. */
  text: readonly Text[];
  options?: readonly Option[];
  class?: number;
  minutes?: number;
  /** About how many minutes the case still takes the person, this step included. */
  minutesLeft?: number;
  belief?: readonly Suspicion[];
  outcome?: CaseOutcome;
  fault?: FaultId;
  /** A free text or number is wanted besides the options. */
  expects?: 'reading' | 'name' | 'amount' | 'note' | 'closing';
  /** Its options are acts: they stay open whatever is asked after them. */
  stands?: boolean;
  /** Language it is said in, where that is not the person's own. */
  locale?: Locale;
  /** It carries a secret, such as a link: not kept once it is delivered. */
  secret?: boolean;
  picture?: Picture;
  file?: FileOut;
  /** Number of the step within its case, from 1. */
  step?: number;
}

/** A text by its key. */
export function text(key: string, facts?: Text['facts']): Text {
  return facts === undefined ? { key } : { key, facts };
}

/** A button that stands: what it does, and what about. */
export function actOption(act: ActId, about: string, label: Text): Option {
  return { id: `${act}/${about}`, label };
}

/** A plain message that asks for nothing. */
export function info(id: string, ...paragraphs: Text[]): Say {
  return { kind: 'info', id, text: paragraphs };
}

/** A question with options whose labels are found under one prefix. */
export function question(id: string, ask: Text, options: readonly Option[]): Say {
  return { kind: 'question', id, text: [ask], options };
}
