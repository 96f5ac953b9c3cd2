/** The first two questions: which language, and who is asking. */
import { ROLES } from '../knowledge/schema.ts';
import type { Flow, Move } from './conversation.ts';
import type { Understood } from './event.ts';
import { LOCALES } from './event.ts';
import type { Say } from './say.ts';
import { question, text } from './say.ts';

/** Which language. */
export function askLanguage(): Say[] {
  const options = LOCALES.map((id) => ({ id, label: text(`dialogue:language.${id}`) }));
  return [question('language', text('dialogue:language.ask'), options)];
}

/** Who is asking. */
export function askRole(): Say[] {
  const options = ROLES.map((id) => ({ id, label: text(`dialogue:role.${id}`) }));
  return [question('role', text('dialogue:role.ask'), options)];
}

function optionOf(event: Understood): string | undefined {
  return event.kind === 'answer' ? event.option : undefined;
}

/** Answers the question which language. */
export function answerLanguage(flow: Extract<Flow, { at: 'language' }>, event: Understood): Move | undefined {
  const locale = LOCALES.find((known) => known === optionOf(event));
  return locale && { flow: flow.then, set: { locale }, changes: [{ do: 'set-person', locale }] };
}

/** Answers the question who is asking. */
export function answerRole(flow: Extract<Flow, { at: 'role' }>, event: Understood): Move | undefined {
  const role = ROLES.find((known) => known === optionOf(event));
  return role && { flow: flow.then, set: { role }, changes: [{ do: 'set-person', role }] };
}
