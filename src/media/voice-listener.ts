/** From a recording, wherever a channel keeps it, to words; or to the reason why there are none. */
import { join } from 'node:path';
import type { Heard, Listener, Recording } from './listener.ts';
import type { Expecting, HeardWords, Recogniser, WhyUnheard } from './recogniser.ts';
import { inWorkFolder } from './work-folder.ts';

/** What was heard, with all that is known of it; fits wherever a `Heard` does. */
export type FullyHeard =
  ({ kind: 'text' } & Omit<HeardWords, 'kind'>) | { kind: 'please-type'; why: WhyUnheard };

/** A recording with what the conversation waits for. */
export interface RecordingInContext extends Recording {
  expecting?: Expecting;
}

export interface VoiceListener extends Listener {
  hear(recording: RecordingInContext): Promise<Heard & FullyHeard>;
}

/** Puts a recording into a file of its own, by the name that the channel gave. Rejects where it cannot be had. */
export type Fetch = (recording: string, into: string) => Promise<void>;

/**
 * Listens to recordings with a recogniser. With `fetch`, the recording is fetched into a folder that is removed as
 * soon as it has been heard; without, `file` names a file on this machine, which stays.
 */
export function voiceListener(recogniser: Recogniser, fetch?: Fetch): VoiceListener {
  const recognised = async (file: string, recording: RecordingInContext): Promise<FullyHeard> => {
    const { locale: language, expecting } = recording;
    const about = expecting === undefined ? { language } : { language, expecting };
    const hearing = await recogniser.recognise(file, about);
    if (hearing.kind === 'unheard') return { kind: 'please-type', why: hearing.why };
    return { ...hearing, kind: 'text' };
  };
  return {
    hear: async (recording) => {
      if (fetch === undefined) return recognised(recording.file, recording);
      return inWorkFolder(async (folder): Promise<FullyHeard> => {
        const file = join(folder, 'note');
        await fetch(recording.file, file);
        return recognised(file, recording);
      });
    },
  };
}
