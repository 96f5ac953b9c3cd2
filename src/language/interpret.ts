/** What a person's words mean to the conversation, given what it is waiting for. */
import type { Context } from '../dialogues/conversation.ts';
import type { Asked, Locale, Understood } from '../dialogues/event.ts';
import type { Say } from '../dialogues/say.ts';
import { openQuestion } from '../dialogues/turn.ts';
import { words } from './render.ts';
import { understand } from './understanding/understand.ts';

function askedOf(context: Context): { asked: Asked | undefined; say: Say | undefined } {
  const open = openQuestion(context);
  if (open === undefined) return { asked: undefined, say: undefined };
  const { say, reading } = open;
  const { locale } = context.conversation;
  const options = (say.options ?? []).map(({ id, label }) => ({ id, label: words(label, locale) }));
  return { asked: { id: say.id, options, ...(reading === undefined ? {} : { reading }) }, say };
}

/** A name is whatever was typed, save for an emergency or a command with its slash. */
function namesOnly(understood: Understood, text: string): Understood {
  const command = understood.kind === 'command' && text.trim().startsWith('/');
  return understood.kind === 'emergency' || command ? understood : { kind: 'unclear', text };
}

/** Understands a text within a conversation. Never throws. */
export function interpret(text: string, context: Context): Understood {
  const { asked, say } = askedOf(context);
  const locale: Locale = context.conversation.locale;
  const understood = understand(text, asked, locale);
  return say?.expects === 'name' ? namesOnly(understood, text) : understood;
}
