/** Replies as voice notes, for those who want them. */
import type { Say } from '../channels/telegram/ports.ts';
import { translate } from '../language/texts.ts';
import { missingPackages } from '../media/capability.ts';
import type { Speaker } from '../media/speaker.ts';

/** More conversations than this are not remembered as told. */
const MOST_TOLD = 10_000;

/** Makes voice notes; where the programs are missing, says which packages bring them, once a conversation. */
export function sayer(speaker: Speaker): Say {
  const told = new Set<string>();
  return async (conversation, parts, locale) => {
    const spoken = await speaker.speak(parts, locale);
    if (spoken.kind === 'spoken') return { opus: spoken.opus };
    if (spoken.why !== 'missing' || told.has(conversation)) return { instead: undefined };
    const packages = await missingPackages('speaking');
    if (packages.length === 0) return { instead: undefined };
    if (told.size >= MOST_TOLD) told.clear();
    told.add(conversation);
    return { instead: translate(locale, 'voice:lacking.speaking', { packages: packages.join(', ') }) };
  };
}
