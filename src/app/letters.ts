/** Messages for other conversations, in the words of those who read them. */
import type { Send } from '../dialogues/conversation.ts';
import type { Locale } from '../dialogues/event.ts';
import type { Message } from '../dialogues/message.ts';
import type { Say } from '../dialogues/say.ts';
import { rendered } from '../language/render.ts';
import type { Letter, Store } from '../store/store.ts';

/** What is said, in words. */
export function inWords(says: readonly Say[], locale: Locale): Message[] {
  return says.map((say) => rendered(say, locale));
}

/** The letters of what is sent; nobody who cannot be reached is written to. */
export function lettersOf(sends: readonly Send[], store: Pick<Store, 'addressOf'>): Letter[] {
  return sends.flatMap(({ to, says, about, locale }): Letter[] => {
    const address = store.addressOf(to);
    if (address === undefined) return [];
    const spoken = locale ?? address.locale;
    const letter = { conversation: address.conversation, locale: spoken, messages: inWords(says, spoken) };
    return [about === undefined ? letter : { ...letter, about }];
  });
}
