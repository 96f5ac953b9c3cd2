/** Words out of a recording: what every recogniser takes and gives. */
import type { Measured } from '../dialogues/event.ts';

/** What the conversation waits for; it helps a recogniser to choose between words that sound alike. */
export interface Expecting {
  /** A number is wanted. */
  reading?: Measured;
  options: readonly { id: string; label: string }[];
}

export interface About {
  /** Language spoken, as `en`. */
  language: string;
  expecting?: Expecting;
}

/**
 * Why nothing was made out. `noise`: speech or sound that fits no known words; `nothing`: silence; `slow`: not done
 * within the time limit; `missing`: a program or the service is not there; `language`: not a language it knows.
 */
export const WHY_UNHEARD = [
  'noise',
  'nothing',
  'too-long',
  'too-big',
  'not-audio',
  'slow',
  'missing',
  'language',
] as const;
export type WhyUnheard = (typeof WHY_UNHEARD)[number];

export interface HeardWords {
  kind: 'heard';
  text: string;
  /** Other texts that sound alike, likeliest first; may be empty. */
  alternatives: string[];
  /** From 0 to 1; it orders results of one recogniser and is no probability. */
  confidence: number;
  /** The words were made out in noise: offering buttons beside them is kind. */
  noisy?: boolean;
}

export type Hearing = HeardWords | { kind: 'unheard'; why: WhyUnheard };

export interface Recogniser {
  /** Listens to a file. Never rejects; takes no longer than `LONGEST_MS`. The file stays as it is. */
  recognise(file: string, about: About): Promise<Hearing>;
}

/** Nothing was made out. */
export function unheard(why: WhyUnheard): Hearing {
  return { kind: 'unheard', why };
}
