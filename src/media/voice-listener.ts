/** From a recording, wherever a channel keeps it, to words; or to the reason why there are none. */
import { join } from 'node:path';
import { missingPackages } from './capability.ts';
import type { Heard, Listener, Recording } from './listener.ts';
import type { Hearing, Recogniser } from './recogniser.ts';
import { unheard } from './recogniser.ts';
import { inWorkFolder } from './work-folder.ts';

/** Puts a recording into a file of its own, by the name that the channel gave. Rejects where it cannot be had. */
export type Fetch = (recording: string, into: string) => Promise<void>;

export interface ListenerParts {
  recogniser: Recogniser;
  /** Where undefined, `file` names a file on this machine, which stays. */
  fetch?: Fetch | undefined;
  /** Keeps a copy of what was fetched; where undefined, it is gone as soon as it has been heard. */
  keep?: ((file: string, person: string) => Promise<void>) | undefined;
  /** The recogniser is programs on this machine: where they are missing, their packages are named. */
  needsPrograms: boolean;
}

/** Under this confidence something heard is read back before it counts, whatever it is. */
const SURE_FROM = 0.6;

async function resultOf(hearing: Hearing, needsPrograms: boolean): Promise<Heard> {
  if (hearing.kind === 'heard') {
    const { text, alternatives, confidence, noisy } = hearing;
    return { kind: 'text', text, alternatives, isSure: noisy !== true && confidence >= SURE_FROM };
  }
  const { why } = hearing;
  const packages = why === 'missing' && needsPrograms ? await missingPackages('listening') : [];
  return packages.length === 0 ? { kind: 'please-type', why } : { kind: 'please-type', why, packages };
}

/** Listens to recordings with a recogniser. A recording that cannot be fetched counts as a listener that is missing. */
export function voiceListener({ recogniser, fetch, keep, needsPrograms }: ListenerParts): Listener {
  const heard = async (file: string, { locale: language, expecting }: Recording): Promise<Heard> => {
    const about = expecting === undefined ? { language } : { language, expecting };
    return resultOf(await recogniser.recognise(file, about), needsPrograms);
  };
  return {
    hear: async (recording) => {
      if (fetch === undefined) return heard(recording.file, recording);
      return inWorkFolder(async (folder): Promise<Heard> => {
        const file = join(folder, 'note');
        const isThere = await fetch(recording.file, file).then(
          () => true,
          () => false,
        );
        if (!isThere) return resultOf(unheard('missing'), false);
        if (recording.person !== undefined) await keep?.(file, recording.person).catch(() => undefined);
        return heard(file, recording);
      });
    },
  };
}
