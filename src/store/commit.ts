/** What a turn writes. */
import type { Database } from 'better-sqlite3';
import type { Conversation } from '../dialogues/conversation.ts';
import type { Message } from '../dialogues/message.ts';
import type { RecordChange } from '../dialogues/record.ts';
import { changeWriter } from './changes.ts';
import type { Deed, InboxEntry, Letter, PhotoNote, Utterance } from './entries.ts';
import type { Inbox } from './inbox.ts';
import type { Outbox, Post } from './outbox.ts';
import { peopleOf } from './people.ts';

export interface Commit {
  entry: InboxEntry;
  /** The version of the conversation that was loaded. */
  version: number;
  state: Conversation;
  changes: readonly RecordChange[];
  messages: readonly Message[];
  /** Messages to other conversations. */
  sends?: readonly Letter[];
  at: number;
  /** The question that was open before stays the open one, with its buttons. */
  keepsQuestion?: boolean;
  /** How the messages are delivered, other than as messages of their own. */
  deed?: Deed;
  /** The messages as they are spoken, where the person wants that. */
  spoken?: Utterance;
  /** The option that was pressed, of a message in the outbox. */
  chosen?: { message: number; option: number };
  photo?: PhotoNote;
}

/** The voice note of a turn as it waits in the outbox: its words stand in the deed, not in a message to show. */
function asSpoken(parts: Utterance, place: Pick<Post, 'conversation' | 'locale' | 'version'>): Post {
  return { ...place, messages: [{ kind: 'info', id: 'spoken', text: '' }], deed: { as: 'spoken', parts } };
}

/** Whether what was said is the code of a gate. */
function tellsCode(change: RecordChange): boolean {
  return change.do === 'open-visit' && change.code !== '';
}

/** Writes a turn; to be run within a transaction. False where the conversation moved since it was loaded. */
export function committer(database: Database, inbox: Inbox, outbox: Outbox): (turn: Commit) => boolean {
  const versionOf = database.prepare<[string], { version: number; asked: number }>(
    'SELECT version, asked FROM conversation WHERE id = ?',
  );
  const putConversation = database.prepare(
    `INSERT INTO conversation (id, person, state, version, asked) VALUES (?, ?, ?, ?, ?)
     ON CONFLICT (id) DO UPDATE SET state = excluded.state, version = excluded.version, asked = excluded.asked`,
  );
  const people = peopleOf(database);
  const write = changeWriter(database);
  return (commit) => {
    const {
      entry,
      version,
      state,
      changes,
      messages,
      sends = [],
      at,
      keepsQuestion,
      deed,
      chosen,
      photo,
      spoken,
    } = commit;
    const { conversation, person, hints } = entry;
    const row = versionOf.get(conversation);
    if ((row?.version ?? 0) !== version) return false;
    if (!inbox.handled(entry.id, at)) return true;
    people.heard(person, hints?.payload, at);
    for (const change of changes) write(change, person, at);
    if (changes.some(tellsCode)) inbox.forgetBody(entry.id);
    people.heard(person, undefined, at);
    const asked = keepsQuestion === true ? (row?.asked ?? 0) : version + 1;
    putConversation.run(conversation, person, JSON.stringify(state), version + 1, asked);
    if (photo !== undefined) people.sentPhoto(person, conversation, photo, at);
    if (chosen !== undefined) outbox.chose(chosen.message, chosen.option);
    const { locale } = state;
    outbox.add({ conversation, messages, locale, version: version + 1, deed, replyTo: hints?.replyTo }, at);
    if (spoken !== undefined)
      outbox.add(asSpoken(spoken, { conversation, locale, version: version + 1 }), at);
    for (const letter of sends) outbox.add({ ...letter, version: 0 }, at);
    return true;
  };
}
