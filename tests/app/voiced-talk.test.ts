/** Voice at this machine: recordings as files, replies spoken into files. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { createBot } from '../../src/app/bot.ts';
import { voicedTalk } from '../../src/app/local.ts';
import type { Voice } from '../../src/app/voice.ts';
import type { LocalTalk } from '../../src/channels/local-talk.ts';
import type { Heard, Recording } from '../../src/media/listener.ts';
import { keptNotes } from '../../src/media/kept-notes.ts';
import type { Spoken, SpokenPart } from '../../src/media/speaker.ts';
import { openStore } from '../../src/store/store.ts';

const folder = mkdtempSync(join(tmpdir(), 'padside-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Machine {
  talk: LocalTalk;
  asked: Recording[];
  spoken: (readonly SpokenPart[])[];
}

function machine(heard: Heard, said?: Spoken, into = folder): Machine {
  let time = Date.UTC(2026, 4, 1);
  let ids = 0;
  const now = (): number => (time += 1000);
  const freshId = (): string => `id-${(ids += 1)}`;
  const store = openStore(':memory:');
  const bot = createBot({ store, now, freshId, locale: 'en', role: 'technician' });
  const asked: Recording[] = [];
  const spoken: (readonly SpokenPart[])[] = [];
  const voice: Voice = {
    listener: () => ({
      hear: (recording) => {
        asked.push(recording);
        return Promise.resolve(heard);
      },
    }),
    speaker: {
      speak: (parts) => {
        spoken.push(parts);
        return Promise.resolve(said ?? { kind: 'spoken', opus: Buffer.from('a note') });
      },
    },
    kept: keptNotes(folder, 0),
    folder: into,
  };
  return { talk: voicedTalk(bot, store, now, freshId, 'en', voice), asked, spoken };
}

describe('a recording at this machine', () => {
  it('should be listened to with the open question in mind, and read back', async () => {
    const { talk, asked } = machine({
      kind: 'text',
      text: 'filter sixteen psi',
      alternatives: ['filter sixty psi'],
    });
    await talk.send({ kind: 'text', text: '/readings' });
    const [message] = await talk.send({ kind: 'voice', file: '/some/note.ogg' });
    expect(asked[0]).toMatchObject({
      file: '/some/note.ogg',
      locale: 'en',
      expecting: { id: 'filter-pressure', reading: 'filter-pressure' },
    });
    expect(message?.text).toContain('one six, 16 psi');
    const [other] = await talk.send({ kind: 'choose', option: 'no' });
    expect(other?.text).toContain('six zero, 60 psi');
  });

  it.each([
    [{ kind: 'please-type', why: 'noise' }, 'make out the words'],
    [{ kind: 'please-type', why: 'language' }, 'only listen to English'],
    [{ kind: 'please-type', why: 'slow' }, 'too long this time'],
    [{ kind: 'please-type', why: 'missing', packages: ['pocketsphinx'] }, 'still needs: pocketsphinx'],
    [{ kind: 'please-type' }, 'cannot listen right now'],
  ] as [Heard, string][])(
    'should be answered kindly, with the question, where it was %o',
    async (heard, words) => {
      const { talk } = machine(heard);
      await talk.send({ kind: 'text', text: '/start' });
      const messages = await talk.send({ kind: 'voice', file: 'note.ogg' });
      expect(messages[0]?.text).toContain(words);
      expect(messages.at(-1)?.id).toBe('complaint');
    },
  );
});

describe('spoken replies at this machine', () => {
  it('should be written to files and said where, once they are wanted', async () => {
    const { talk, spoken } = machine({ kind: 'please-type' });
    expect((await talk.send({ kind: 'text', text: '/start' })).map(({ id }) => id)).not.toContain('spoken');
    const on = await talk.send({ kind: 'text', text: '/voice on' });
    const where = /Spoken reply: (.*)/.exec(on.at(-1)?.text ?? '')?.[1] ?? '';
    expect(readFileSync(where, 'utf8')).toBe('a note');
    const next = await talk.send({ kind: 'text', text: 'filter 22 psi' });
    expect(next.at(-1)?.id).toBe('spoken');
    expect(
      spoken
        .at(-1)
        ?.map(({ text }) => text)
        .join(' '),
    ).toContain('22 P S I');
    const off = await talk.send({ kind: 'text', text: '/voice off' });
    expect(off.map(({ id }) => id)).not.toContain('spoken');
    expect((await talk.send({ kind: 'text', text: '/voice' })).map(({ id }) => id)).not.toContain('spoken');
  });

  it('should lose nothing where a reply cannot be spoken or written', async () => {
    const failed = machine({ kind: 'please-type' }, { kind: 'unspoken', why: 'failed' });
    const on = await failed.talk.send({ kind: 'text', text: '/voice on' });
    expect(on.map(({ id }) => id)).toEqual(['voice', 'complaint']);
    const file = join(folder, 'no-folder');
    writeFileSync(file, '');
    const stuck = machine({ kind: 'please-type' }, undefined, file);
    const told = await stuck.talk.send({ kind: 'text', text: '/voice on' });
    expect(told.at(-1)?.text).toContain('PADSIDE_VOICE_FOLDER');
  });
});
