/** Reminders carry their own switch. */
import type { Context, Move, Send } from '../conversation.ts';
import { actOption, info, text } from '../say.ts';
import { REMINDER_KINDS } from './job.ts';

/** A reminder with the button beneath its last message that switches its kind off for this pool. */
export function withSwitches(send: Send): Send {
  const { reminder, says } = send;
  const last = says.at(-1);
  if (reminder === undefined || last === undefined) return send;
  const off = actOption(
    'reminder-off',
    `${reminder.kind} ${reminder.pool}`,
    text(`afterwards:off.${reminder.kind}`),
  );
  const options = [...(last.options ?? []), off];
  return { ...send, says: [...says.slice(0, -1), { ...last, options, stands: true }] };
}

/** Switches a kind of reminder off. */
export function reminderOff(about: string, { conversation }: Context): Move {
  const [name, pool = ''] = about.split(' ');
  const kind = REMINDER_KINDS.find((known) => known === name);
  return {
    flow: conversation.flow,
    aside: true,
    changes: kind === undefined ? [] : [{ do: 'reminder-off', kind, pool }],
    says: [info('reminder-off', text('afterwards:off.done'))],
  };
}
