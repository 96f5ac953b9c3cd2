/** What a person's words mean to the conversation, given what it is waiting for. */
import { TAKES_TROUBLE } from '../dialogues/complaint.ts';
import type { Context } from '../dialogues/conversation.ts';
import type { Asked, Locale, Understood } from '../dialogues/event.ts';
import type { Say } from '../dialogues/say.ts';
import { openQuestion } from '../dialogues/turn.ts';
import { mayDo } from '../dialogues/access.ts';
import { severalIn, troubleIn } from './findings.ts';
import { words } from './render.ts';
import { closingIn, closingLine, saysSomething } from './understanding/closing.ts';
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

/** Longest answer, in words, that is taken for one of the buttons beneath a question that takes a note. */
const MOST_WORDS_FOR_A_BUTTON = 3;

/** A note is whatever was typed, save for an emergency, a slash command, and few words that mean a button. */
function notesOnly(understood: Understood, text: string, asked: Asked | undefined): Understood {
  // A number is a code or an hour, not the place of a button.
  const isShort = !/\d/u.test(text) && text.trim().split(/\s+/u).length <= MOST_WORDS_FOR_A_BUTTON;
  const isLeft = understood.kind === 'command' && ['skip', 'unsure', 'back', 'stop'].includes(understood.id);
  if (isShort && (understood.kind === 'answer' || isLeft)) return understood;
  return optionNamed(text, asked) ?? namesOnly(understood, text);
}

/** What is said of a visit that is done, where that is asked; a button and a command are themselves. */
function closingAnswer(
  understood: Understood,
  text: string,
  asked: Asked | undefined,
  locale: Locale,
): Understood {
  if (understood.kind === 'emergency' || understood.kind === 'command') return understood;
  const named = optionNamed(text, asked);
  if (named !== undefined) return named;
  const said = closingIn(text, locale);
  return saysSomething(said) ? { kind: 'closing', said } : { kind: 'unclear', text };
}

/** A technician's line that closes a visit, whatever else is being asked. */
function closingOf(
  text: string,
  understood: Understood,
  { facts, conversation }: Context,
): Understood | undefined {
  if (understood.kind === 'emergency' || !mayDo({ command: 'close' }, facts)) return undefined;
  const said = closingLine(text, conversation.locale);
  return said && { kind: 'closing', said };
}

/** The option whose label, or whose id, is all that was typed. */
function optionNamed(text: string, asked: Asked | undefined): Understood | undefined {
  const said = text.trim().toLocaleLowerCase();
  const named = asked?.options.find(({ id, label }) => id === said || label.toLocaleLowerCase() === said);
  return named && { kind: 'answer', option: named.id };
}

/** An amount is whatever was typed, save for an option's label, an emergency, a slash command, or one in words alone. */
function amountsOnly(text: string, asked: Asked | undefined, locale: Locale): Understood {
  const understood = understand(text, undefined, locale);
  const isCommand = understood.kind === 'command' && (text.trim().startsWith('/') || !/\d/u.test(text));
  if (understood.kind === 'emergency' || isCommand) return understood;
  return optionNamed(text, asked) ?? { kind: 'unclear', text };
}

/** Several numbers sent to a calculator are amounts, also where it asks for a choice first. */
function areAmounts(text: string, say: Say | undefined, { conversation }: Context): boolean {
  return say?.expects === 'amount' || (conversation.flow.at === 'calculate' && /\d\D+\d/u.test(text));
}

/** Several things told at once: trouble with what was read and seen; findings nobody asked for in a case only, where they tell of something. */
function severalThings(
  understood: Understood,
  text: string,
  asked: Asked | undefined,
  { conversation: { flow, locale } }: Context,
): Understood | undefined {
  if (understood.kind === 'emergency' || understood.kind === 'command') return undefined;
  if (TAKES_TROUBLE.has(flow.at)) return troubleIn(text, locale);
  if (flow.at === 'consult') return severalIn(text, asked, locale);
  if (flow.at !== 'profile') return undefined;
  // A reading or a finding is not taken for the answer to a question about the equipment because of a word in it.
  const unasked = severalIn(text, undefined, locale) ?? understand(text, undefined, locale);
  return unasked.kind === 'findings' || unasked.kind === 'readings' ? unasked : undefined;
}

/** What the conversation waits for, with its labels in words. */
export function askedIn(context: Context): Asked | undefined {
  return askedOf(context).asked;
}

/** Understands a text within a conversation. Never throws. */
export function interpret(text: string, context: Context): Understood {
  const { asked, say } = askedOf(context);
  const locale: Locale = context.conversation.locale;
  if (areAmounts(text, say, context)) return amountsOnly(text, asked, locale);
  const understood = understand(text, asked, locale);
  if (say?.expects === 'closing') return closingAnswer(understood, text, asked, locale);
  const closing = closingOf(text, understood, context);
  if (closing !== undefined) return closing;
  if (say?.expects === 'note') return notesOnly(understood, text, asked);
  if (say?.expects === 'name') return namesOnly(understood, text);
  const several = severalThings(understood, text, asked, context);
  if (several !== undefined) return several;
  // An answer on the screen may be called as a command is: what is on the screen is meant.
  const bareCommand = understood.kind === 'command' && !text.trim().startsWith('/');
  return (bareCommand ? optionNamed(text, asked) : undefined) ?? understood;
}
