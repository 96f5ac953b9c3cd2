/** What came of listening to one recording, in the terms of the table. */
import { understand } from '../../src/language/understanding/understand.ts';
import type { Understood } from '../../src/dialogues/event.ts';
import type { Hearing } from '../../src/media/recogniser.ts';
import { questionFor } from './questions.ts';

/** `wrong`: other words than were said, but such as would be read back or acted upon. */
export type Outcome = 'right' | 'wrong' | 'rejected';

/** What a text means to the question, as one line. */
function meaning(text: string, asked: string): string {
  const meant: Understood = understand(text, questionFor(asked), 'en');
  return meant.kind === 'unclear' ? 'unclear' : JSON.stringify(meant);
}

/** Right is what means the same as what was said: "it is full" for "full" does. */
export function outcomeOf(said: string, asked: string, hearing: Hearing): Outcome {
  if (hearing.kind === 'unheard') return 'rejected';
  const heard = meaning(hearing.text, asked);
  if (heard === 'unclear') return 'rejected';
  return heard === meaning(said, asked) ? 'right' : 'wrong';
}

/** Unrelated speech that the bot would take for something said to it. */
export function falselyAccepted(asked: string, hearing: Hearing): boolean {
  return hearing.kind === 'heard' && meaning(hearing.text, asked) !== 'unclear';
}
