import type { Update } from 'grammy/types';
import { describe, expect, it } from 'vitest';
import { incomingOf } from '../../../src/channels/telegram/update.ts';

const SELF = { id: 77, username: 'padside_test_bot' };
const FROM = { id: 5, is_bot: false, first_name: 'Nobody', language_code: 'es-419' };
const PRIVATE = { id: 5, type: 'private' };
const GROUP = { id: -100, type: 'supergroup', title: 'Crew' };

function update(message: object): Update {
  return {
    update_id: 9,
    message: { message_id: 3, date: 1, from: FROM, chat: PRIVATE, ...message },
  } as unknown as Update;
}
const mention = (offset: number): object => ({ type: 'mention', offset, length: SELF.username.length + 1 });

describe('an update', () => {
  it('should become a text with the language of the person', () => {
    expect(incomingOf(update({ text: 'hola' }), SELF)).toEqual({
      channel: 'telegram',
      key: '9',
      conversation: 'telegram:5',
      person: 'telegram:5',
      body: { kind: 'text', text: 'hola' },
      hints: { locale: 'es' },
    });
    const french = incomingOf(update({ text: 'x', from: { ...FROM, language_code: 'fr' } }), SELF);
    expect(french?.hints.locale).toBeUndefined();
  });

  it('should keep what a link carried, and nothing that a link cannot carry', () => {
    expect(incomingOf(update({ text: '/start pool_7-a' }), SELF)?.hints.payload).toBe('pool_7-a');
    expect(incomingOf(update({ text: '/start' }), SELF)?.hints.payload).toBeUndefined();
    expect(incomingOf(update({ text: `/start ${'x'.repeat(65)}` }), SELF)?.hints.payload).toBeUndefined();
  });

  it('should be left alone in a group unless it is addressed to the bot', () => {
    expect(incomingOf(update({ chat: GROUP, text: 'is it the pump?' }), SELF)).toBeUndefined();
    const other = update({
      chat: GROUP,
      text: '/why@other_bot',
      entities: [{ type: 'bot_command', offset: 0, length: 14 }],
    });
    expect(incomingOf(other, SELF)).toBeUndefined();
  });

  it('should be heard in a group by name, by command with the name, and as a reply', () => {
    const named = incomingOf(
      update({ chat: GROUP, text: 'hey @padside_test_bot it is stuck', entities: [mention(4)] }),
      SELF,
    );
    expect(named?.body).toEqual({ kind: 'text', text: 'hey  it is stuck' });
    expect(named?.conversation).toBe('telegram:-100:5');
    expect(named?.hints.replyTo).toBe(3);
    const command = update({
      chat: GROUP,
      text: '/why@padside_test_bot',
      entities: [{ type: 'bot_command', offset: 0, length: 21 }],
    });
    expect(incomingOf(command, SELF)?.body).toEqual({ kind: 'text', text: '/why@padside_test_bot' });
    const reply = update({
      chat: GROUP,
      text: '18 psi',
      reply_to_message: { message_id: 1, from: { id: 77 } },
    });
    expect(incomingOf(reply, SELF)?.body).toEqual({ kind: 'text', text: '18 psi' });
  });

  it('should bring the largest photo that can be fetched, and its caption as the words', () => {
    const photo = [
      { file_id: 'small', file_size: 1000 },
      { file_id: 'large', file_size: 900_000 },
      { file_id: 'huge', file_size: 30_000_000 },
    ];
    expect(incomingOf(update({ photo }), SELF)).toMatchObject({
      body: { kind: 'photo', file: 'large' },
      hints: { photo: 'large' },
    });
    expect(incomingOf(update({ photo, caption: 'no water' }), SELF)).toMatchObject({
      body: { kind: 'text', text: 'no water' },
      hints: { photo: 'large' },
    });
  });

  it('should not take what other bots, channels and the platform itself write', () => {
    expect(incomingOf(update({ text: 'x', from: { ...FROM, is_bot: true } }), SELF)).toBeUndefined();
    expect(incomingOf(update({ text: 'x', from: undefined }), SELF)).toBeUndefined();
    expect(incomingOf(update({ new_chat_members: [FROM] }), SELF)).toBeUndefined();
    expect(incomingOf({ update_id: 1 }, SELF)).toBeUndefined();
  });
});
