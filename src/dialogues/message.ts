/** Messages in and out as the channels see them: no keys left, words of one language only. */
import type { CaseOutcome, FileOut, Picture, SayKind } from './say.ts';

export interface MessageOption {
  id: string;
  label: string;
  folded?: boolean;
}

/** A message to a person. */
export interface Message {
  kind: SayKind;
  id: string;
  text: string;
  options?: MessageOption[];
  class?: number;
  minutes?: number;
  /** About how many minutes the case still takes the person, this step included. */
  minutesLeft?: number;
  step?: number;
  outcome?: CaseOutcome;
  fault?: string;
  belief?: { fault: string; p: number }[];
  /** Its options stay open whatever is asked after them. */
  stands?: boolean;
  /** Not kept once it is delivered. */
  secret?: boolean;
  picture?: Picture<string>;
  file?: FileOut<string>;
  /** A free text or number is wanted besides the options. */
  expects?: 'reading' | 'name' | 'amount' | 'note' | 'closing';
}

/** What a person sent. */
export type Body =
  | { kind: 'text'; text: string }
  | { kind: 'choose'; option: string }
  | { kind: 'voice'; file: string }
  /** What a recording was made out to say. */
  | { kind: 'heard'; text: string; others: string[]; isSure: boolean }
  /** A recording of which nothing was made out. `packages`: what this machine lacks for listening. */
  | { kind: 'unheard'; why: string; packages?: string[] }
  | { kind: 'photo'; file: string }
  /** A file; `file` tells the channel where it is, or is the id it is kept under. */
  | { kind: 'file'; file: string; name: string };
