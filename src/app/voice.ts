/** Voice as configured: who listens, who speaks, what is kept. */
import { httpRecogniser } from '../media/http-recogniser.ts';
import type { KeptNotes } from '../media/kept-notes.ts';
import { keptNotes } from '../media/kept-notes.ts';
import type { Listener } from '../media/listener.ts';
import type { Speaker } from '../media/speaker.ts';
import { espeakSpeaker } from '../media/speaker.ts';
import { sphinxRecogniser } from '../media/sphinx/recogniser.ts';
import type { Fetch } from '../media/voice-listener.ts';
import { voiceListener } from '../media/voice-listener.ts';
import { removeLeftFolders } from '../media/work-folder.ts';
import type { VoiceConfig } from './voice-config.ts';

export interface Voice {
  /** A listener for recordings that are fetched so; without `fetch`, for files on this machine. */
  listener(fetch?: Fetch): Listener;
  speaker: Speaker;
  kept: KeptNotes;
  /** Where spoken replies are written that no platform carries. */
  folder: string;
}

/** Voice by this configuration. Nothing is started or looked for until it is used. */
export function voiceOf({ service, keepDays, folder }: VoiceConfig): Voice {
  const kept = keptNotes(folder, keepDays);
  const recogniser = service === undefined ? sphinxRecogniser() : httpRecogniser(service);
  const keep: KeptNotes['keep'] | undefined =
    keepDays === 0 ? undefined : (file, person) => kept.keep(file, person);
  return {
    listener: (fetch) => voiceListener({ recogniser, fetch, keep, needsPrograms: service === undefined }),
    speaker: espeakSpeaker(),
    kept,
    folder,
  };
}

/** Removes what earlier runs left: work folders of a process that was killed, notes kept long enough. */
export async function tidied({ kept }: Voice, now: number): Promise<void> {
  await Promise.all([removeLeftFolders(now), kept.prune(now)]).catch(() => undefined);
}
