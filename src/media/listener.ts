/** Listening to a recording: what turns speech into text plugs in here. */

/** A recording as a channel received it. */
export interface Recording {
  /** How the channel finds it: a file name or the platform's file id. */
  file: string;
  /** The language the conversation is held in, as `en`. */
  locale: string;
}

export type Heard =
  | { kind: 'text'; text: string }
  /** Nothing could be made of it; the person is asked to type. */
  | { kind: 'please-type' };

export interface Listener {
  /** Listens to one recording. May take seconds; a rejection counts as `please-type`. */
  hear(recording: Recording): Promise<Heard>;
}
