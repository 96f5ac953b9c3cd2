/** From a platform's messages to arrivals in the inbox: paced, emergencies first, recordings held until heard. */
import type { Locale } from '../dialogues/event.ts';
import { understand } from '../language/understanding/understand.ts';
import type { Arrival, Incoming } from '../store/entries.ts';
import { HELD } from '../store/inbox.ts';
import type { Store } from '../store/store.ts';
import { mayImport } from './files.ts';
import { remark } from './meaning.ts';
import type { Slot } from './pace.ts';

export interface ArrivalParts {
  store: Store;
  slotFor: (conversation: string, now: number) => Slot;
  /** Somebody listens to recordings. */
  listens: boolean;
}

function localeOf({ conversation, person, hints }: Incoming, store: Store): Locale {
  const { state, locale } = store.load(conversation, person);
  return state?.locale ?? locale ?? hints?.locale ?? 'en';
}

/** Whether the message tells of danger to a person: such a message never waits behind others. */
function isEmergency({ body }: Incoming): boolean {
  return body.kind === 'text' && understand(body.text, undefined, 'en').kind === 'emergency';
}

/** A file is fetched where it is of use, and the person told that it is on its way. */
function fileArrival(incoming: Incoming, store: Store): Arrival {
  const { body, hints, conversation, person } = incoming;
  if (body.kind !== 'file' || hints?.tooBig === true) return incoming;
  if (!mayImport(conversation, person, store)) return { ...incoming, body: { ...body, file: '' } };
  const locale = localeOf(incoming, store);
  return { ...incoming, dueAt: HELD, notice: { message: remark('info', 'file-coming', locale), locale } };
}

/** The arrival that an incoming message makes. */
export function arrivalOf(incoming: Incoming, now: number, parts: ArrivalParts): Arrival {
  const { store, slotFor, listens } = parts;
  const slot = slotFor(incoming.conversation, now);
  if (listens && incoming.body.kind === 'voice' && incoming.hints?.tooBig !== true)
    return { ...incoming, dueAt: HELD };
  if (incoming.body.kind === 'file') return fileArrival(incoming, store);
  if (!slot.slowed) return incoming;
  if (isEmergency(incoming)) return { ...incoming, urgent: true };
  const paced = { ...incoming, dueAt: slot.dueAt };
  if (!slot.first) return paced;
  const locale = localeOf(incoming, store);
  return { ...paced, notice: { message: remark('info', 'slowed', locale), locale } };
}
