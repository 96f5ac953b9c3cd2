/** Listening to a recording: what turns speech into text plugs in here. */
import type { Expecting, WhyUnheard } from './recogniser.ts';

/** A recording as a channel received it. */
export interface Recording {
  /** How the channel finds it: a file name or the platform's file id. */
  file: string;
  /** The language the conversation is held in, as `en`. */
  locale: string;
  /** What the conversation waits for. */
  expecting?: Expecting;
  /** Whose it is, for those who keep recordings for some days. */
  person?: string;
}

export type Heard =
  | {
      kind: 'text';
      text: string;
      /** Other texts that sound alike, likeliest first. */
      alternatives?: readonly string[];
      /** It was made out in quiet and fits well; true where nothing is said. */
      isSure?: boolean;
    }
  /** Nothing could be made of it; the person is asked to type. `packages`: what the machine lacks. */
  | { kind: 'please-type'; why?: WhyUnheard; packages?: readonly string[] };

export interface Listener {
  /** Listens to one recording. May take seconds; a rejection counts as `please-type`. */
  hear(recording: Recording): Promise<Heard>;
}
