/**
 * Real notes in a synthetic voice through the real programs, and files that are none. Skipped, and said so, where the
 * Debian packages are missing.
 */
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { damaged } from '../../bench/speech/damage.ts';
import { randomFrom } from '../../bench/speech/noise.ts';
import { questionFor } from '../../bench/speech/questions.ts';
import { understand } from '../../src/language/understanding/understand.ts';
import { audioFile } from '../../src/media/audio-file.ts';
import { missingPackages } from '../../src/media/capability.ts';
import { LONGEST_MS } from '../../src/media/limits.ts';
import { espeakSpeaker } from '../../src/media/speaker.ts';
import { sphinxRecogniser } from '../../src/media/sphinx/recogniser.ts';
import { voiceListener } from '../../src/media/voice-listener.ts';

const missing = [
  ...new Set([...(await missingPackages('listening')), ...(await missingPackages('speaking'))]),
];
if (missing.length > 0) console.warn(`Skipped: the Debian packages ${missing.join(', ')} are missing`);

const recogniser = sphinxRecogniser();
const speaker = espeakSpeaker();
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'padside-test-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function note(text: string): Promise<Buffer> {
  const spoken = await speaker.speak([{ text }], 'en');
  if (spoken.kind === 'unspoken') throw new Error(`Not said: ${spoken.why}`);
  return spoken.opus;
}

async function written(name: string, text: string): Promise<string> {
  const file = join(folder, name);
  writeFileSync(file, await note(text));
  return file;
}

const leftFolders = (): string[] => readdirSync(tmpdir()).filter((name) => name.startsWith('padside-voice-'));

describe.skipIf(missing.length > 0)('the speaker', () => {
  it.each([
    ['en', 'Filter pressure, one six, sixteen P S I.'],
    ['es', 'Presión del filtro, uno seis, dieciséis libras.'],
  ])('should say a text in %s as OGG/Opus', async (language, text) => {
    const spoken = await speaker.speak([{ text: 'Caution. Pump off.', slow: true }, { text }], language);
    expect(spoken.kind).toBe('spoken');
    if (spoken.kind !== 'spoken') return;
    expect(spoken.opus.toString('latin1', 0, 4)).toBe('OggS');
    expect(spoken.opus.length).toBeGreaterThan(4_000);
  });

  it('should take longer for what is said slowly', async () => {
    const text = 'Switch the pump off now, and wait until it is silent and still.';
    const [slow, usual] = await Promise.all([
      speaker.speak([{ text, slow: true }], 'en'),
      speaker.speak([{ text }], 'en'),
    ]);
    const size = (spoken: typeof slow): number => (spoken.kind === 'spoken' ? spoken.opus.length : 0);
    expect(size(slow)).toBeGreaterThan(size(usual) * 1.1);
  });

  it('should say no language it does not know, and nothing of nothing', async () => {
    expect(await speaker.speak([{ text: 'hej' }], 'sv')).toEqual({ kind: 'unspoken', why: 'language' });
    expect(await speaker.speak([{ text: ' ' }], 'en')).toEqual({ kind: 'unspoken', why: 'nothing' });
  });

  it.each([
    '<audio src="/etc/passwd"/>',
    '</speak><speak>',
    '[[p@]] -f /etc/passwd',
    '\0\u0007 &amp; "',
    '-w x',
  ])('should survive %j', async (text) =>
    expect((await speaker.speak([{ text }], 'en')).kind).toBe('spoken'),
  );
});

describe.skipIf(missing.length > 0)('a clean note in a synthetic voice', () => {
  it.each([
    ['filter-pressure', 'twenty two P S I', 'twenty two psi'],
    ['filter-pressure', 'filter twenty two, vacuum nine', 'filter twenty two vacuum nine'],
    ['filter-pressure', 'I do not have a gauge', "i don't have a gauge"],
    ['pump-vacuum', 'nine inches', 'nine inches'],
    ['pump-vacuum', 'vacuum is eight inches', 'vacuum is eight inches'],
    ['skimmer-look', 'basket full', 'basket full'],
    ['pump-running', 'it is running', 'it is running'],
    ['pump-lid-look', 'half empty', 'half empty'],
    ['caution', 'all done', 'all done'],
    ['water-level', 'go back', 'go back'],
    ['water-level', 'say again', 'say again'],
    ['robot-lights', 'there is smoke', 'there is smoke'],
  ])('should be understood at %s: %s', async (asked, said, meant) => {
    const question = questionFor(asked);
    const heard = await recogniser.recognise(await written('clean.ogg', said), {
      language: 'en',
      expecting: question,
    });
    expect(heard.kind).toBe('heard');
    if (heard.kind !== 'heard') return;
    expect(understand(heard.text, question, 'en')).toEqual(understand(meant, question, 'en'));
    expect(heard.confidence).toBeGreaterThan(0.5);
  });

  it.each(['the weather will be lovely tomorrow afternoon', 'she plays the violin in a small orchestra'])(
    'should not be taken for anything when it is unrelated: %s',
    async (said) => {
      const file = await written('unrelated.ogg', said);
      const heard = await recogniser.recognise(file, {
        language: 'en',
        expecting: questionFor('filter-pressure'),
      });
      expect(heard).toEqual({ kind: 'unheard', why: 'noise' });
    },
  );

  it('should not be listened to in a language that is not known', async () => {
    const file = await written('spanish.ogg', 'one');
    expect(await recogniser.recognise(file, { language: 'es' })).toEqual({
      kind: 'unheard',
      why: 'language',
    });
  });

  it('should reach the listener, fetched and then gone', async () => {
    const opus = await note('go back');
    let fetched = '';
    const listener = voiceListener({
      recogniser,
      fetch: (_, into) => {
        fetched = into;
        writeFileSync(into, opus);
        return Promise.resolve();
      },
      needsPrograms: true,
    });
    const heard = await listener.hear({ file: 'id-1', locale: 'en', expecting: questionFor('water-level') });
    expect(heard).toMatchObject({ kind: 'text', text: 'go back' });
    expect(leftFolders().filter((name) => fetched.includes(name))).toEqual([]);
  });
});

describe.skipIf(missing.length > 0)('silence', () => {
  it('should be called nothing', async () => {
    const spoken = await speaker.speak([{ text: '.' }], 'en');
    const file = join(folder, 'silence.ogg');
    writeFileSync(file, spoken.kind === 'spoken' ? spoken.opus : '');
    const heard = await recogniser.recognise(file, { language: 'en' });
    expect(heard).toEqual({ kind: 'unheard', why: 'nothing' });
  });
});

describe.skipIf(missing.length > 0)('damaged files', () => {
  const FILES = 10_000;
  const LANES = 6;
  /** Those that are whole enough for a decoder take a second each; so many of them are listened to. */
  const LISTENED_TO = 40;

  it('should never stall nor end the process, nor leave anything behind', { timeout: 300_000 }, async () => {
    const notes = [await note('nine'), await note('filter pressure is twenty two, vacuum is nine inches')];
    const before = leftFolders().length;
    const random = randomFrom(7);
    const came = { refused: 0, listened: 0, left: 0 };
    let longest = 0;
    const one = async (name: string): Promise<void> => {
      const file = join(folder, name);
      writeFileSync(file, damaged(notes[Math.floor(random() * 2)]!, random));
      const began = performance.now();
      const audio = await audioFile(file);
      if (audio.is === 'refused' || audio.kind !== 'opus') came.refused += 1;
      else if (came.listened < LISTENED_TO) {
        came.listened += 1;
        const question = { language: 'en', expecting: questionFor('pump-vacuum') };
        expect(['heard', 'unheard']).toContain((await recogniser.recognise(file, question)).kind);
      } else came.left += 1;
      longest = Math.max(longest, performance.now() - began);
      rmSync(file);
    };
    let next = 0;
    const lane = async (): Promise<void> => {
      while (next < FILES) await one(`bad-${(next += 1)}`);
    };
    await Promise.all(Array.from({ length: LANES }, lane));
    console.log(
      `${FILES} bad files: ${came.refused} refused before any program, ${came.listened} through the decoder and ` +
        `recogniser, ${came.left} more whole enough for that and left out here; longest ${Math.round(longest)} ms`,
    );
    expect(came.refused + came.listened + came.left).toBe(FILES);
    expect(came.listened).toBe(LISTENED_TO);
    expect(longest).toBeLessThan(LONGEST_MS + 8_000);
    expect(leftFolders().length).toBeLessThanOrEqual(before + 2);
  });
});

describe('missing programs', () => {
  it('should be named by their packages, and only those', async () => {
    for (const ability of ['listening', 'speaking'] as const)
      for (const name of await missingPackages(ability))
        expect(['util-linux', 'opus-tools', 'pocketsphinx', 'pocketsphinx-en-us', 'espeak-ng']).toContain(
          name,
        );
  });
});
