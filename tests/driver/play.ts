/** Plays a whole conversation with a person who answers by a policy. */
import type { Body, Message } from '../../src/dialogues/message.ts';
import type { Talk } from './talk.ts';

/** What the person answers to a message that waits for one; undefined ends the play. */
export type Policy = (message: Message) => Body | undefined;

const LONGEST_PLAY = 200;

/** Whether the message waits for an answer. */
export function waits(message: Message | undefined): message is Message {
  return message !== undefined && (message.options !== undefined || message.expects !== undefined);
}

/**
 * Plays from the person's first message until the case has its result, the policy has no answer, or nothing is asked any more.
 * Returns every message of the bot. Throws where the conversation does not come to an end.
 */
export function play(talk: Talk, opening: Body, policy: Policy): Message[] {
  let heard = talk.send(opening);
  const all = [...heard];
  for (let turn = 0; turn < LONGEST_PLAY; turn += 1) {
    const open = heard.at(-1);
    if (heard.some(({ kind }) => kind === 'result') || !waits(open)) return all;
    const body = policy(open);
    if (body === undefined) return all;
    heard = talk.send(body);
    all.push(...heard);
  }
  throw new Error(`The conversation did not end within ${LONGEST_PLAY} turns`);
}
