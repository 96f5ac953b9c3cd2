/**
 * Voice on the platform: real notes in a synthetic voice (espeak-ng) through the real recogniser (PocketSphinx), and
 * spoken replies. What needs the Debian packages is skipped, and said so, where they are missing.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, describe, expect, it, vi } from 'vitest';
import { voiceOf } from '../../src/app/voice.ts';
import type { Voice } from '../../src/app/voice.ts';
import type { Conversation } from '../../src/dialogues/conversation.ts';
import type { CheckId } from '../../src/knowledge/ids.ts';
import { isQuantity } from '../../src/knowledge/ids.ts';
import { checkById } from '../../src/knowledge/trade.ts';
import { translate } from '../../src/language/texts.ts';
import * as capability from '../../src/media/capability.ts';
import type { SeenMessage } from '../fake-bot-api/chats.ts';
import { VOICE_NOTE } from '../fake-bot-api/methods.ts';
import type { Person } from '../fake-bot-api/person.ts';
import { personAt } from '../fake-bot-api/person.ts';
import type { Rig } from '../fake-bot-api/rig.ts';
import { startRig } from '../fake-bot-api/rig.ts';
import { CLEAN, TRUTH } from '../truth/truth.ts';

const UNHURRIED = { burst: 1000, everyMs: 1000 };
const missing = [
  ...new Set([
    ...(await capability.missingPackages('listening')),
    ...(await capability.missingPackages('speaking')),
  ]),
];
if (missing.length > 0) console.warn(`Skipped: the Debian packages ${missing.join(', ')} are missing`);

const scratch = mkdtempSync(join(tmpdir(), 'padside-test-'));
const voiceIn = (folder: string, keepDays = 0): Voice => voiceOf({ service: undefined, keepDays, folder });

afterAll(() => rmSync(scratch, { recursive: true, force: true }));

let rig: Rig;
afterEach(async () => {
  const { violations } = rig.fake;
  await rig.close();
  expect(violations).toEqual([]);
  vi.restoreAllMocks();
});

async function then(person: Person, act: () => unknown): Promise<SeenMessage> {
  const before = person.messages().length;
  act();
  await person.answered(before);
  await rig.settled();
  return person.messages().at(-1)!;
}

let notes = 0;

/** A note of these words, as a person's phone would have recorded and sent it. */
function sends(person: Person, bytes: Buffer, duration = 3): void {
  const file_id = `note-${(notes += 1)}`;
  rig.fake.files.set(file_id, bytes);
  person.sends({ voice: { file_id, file_unique_id: file_id, duration, file_size: bytes.length } });
}

function noteOf(words: string): Buffer {
  const [sound, note] = [join(scratch, 'said.wav'), join(scratch, 'said.ogg')];
  execFileSync('espeak-ng', ['-v', 'en-us', '-s', '150', '-w', sound, words.replace(/\bpsi\b/g, 'P S I')]);
  execFileSync('opusenc', ['--quiet', '--bitrate', '24', sound, note]);
  return readFileSync(note);
}

const ONES =
  `zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen
  seventeen eighteen nineteen`.split(/\s+/u);
const TENS = 'zero ten twenty thirty forty fifty'.split(' ');

/** A whole number below sixty as people say it. */
function inWords(value: number): string {
  const rest = value % 10;
  if (value < 20) return ONES[value]!;
  return `${TENS[Math.floor(value / 10)]!}${rest === 0 ? '' : ` ${ONES[rest]!}`}`;
}

/** The cleaner's leaf canister is full; the filter's gauge shows sixteen, which is heard as sixty. */
const FAULT = 'canister-full';
const EQUIPMENT: Readonly<Record<string, string>> = {
  cleaner: 'suction',
  connection: 'skimmer',
  canister: 'yes',
  pump: 'single-speed',
  filter: 'cartridge',
};
const FILTER_PSI = 16;

interface Wanted {
  words: string[];
  /** The value that is told, where one is. */
  value?: number;
}

function reading(quantity: 'filter-pressure' | 'pump-vacuum'): Wanted {
  const ratio = TRUTH[FAULT].reads[quantity] ?? 1;
  const value = quantity === 'filter-pressure' ? FILTER_PSI : Math.round(CLEAN[quantity].value * ratio);
  const word = inWords(value);
  return quantity === 'filter-pressure'
    ? { value, words: [`${word} psi`, `filter pressure ${word} psi`] }
    : { value, words: [`${word} inches`, `vacuum is ${word} inches`] };
}

function checkWords(check: CheckId): Wanted {
  if (check === 'filter-pressure' || check === 'pump-vacuum') return reading(check);
  if (isQuantity(check))
    return { words: [translate('en', `checks:${check}.outcomes.${checkById(check).silent[0]!}`)] };
  const { outcomes } = checkById(check);
  const outcome = TRUTH[FAULT].finds[check] ?? outcomes[0]!;
  const place = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth'][outcomes.indexOf(outcome)]!;
  return { words: [translate('en', `checks:${check}.outcomes.${outcome}`), `the ${place} one`] };
}

/** What the person says at this point, first in one way, then in others where it was not made out. */
function wordsAt({ flow }: Conversation): Wanted {
  switch (flow.at) {
    case 'role':
      return { words: ['I am a technician', 'the second one'] };
    case 'complaint':
      return { words: ["cleaner doesn't move", 'the first one'] };
    case 'profile': {
      const key = flow.asks[flow.asked]!;
      return { words: [translate('en', `equipment:${key}.options.${EQUIPMENT[key]!}`), 'the first one'] };
    }
    case 'consult': {
      const { prompt } = flow;
      if (prompt.kind === 'caution') return { words: ['all done', 'understood'] };
      if (prompt.kind === 'check') return checkWords(prompt.check);
      const isCured = prompt.fault === FAULT;
      return {
        words: isCured ? ['yes it runs now', 'it works now'] : ['done still not right', 'still the same'],
      };
    }
    case 'baseline-offer':
      return { words: ['no', 'nope'] };
    default:
      throw new Error(`Nothing to say at ${flow.at}`);
  }
}

describe.skipIf(missing.length > 0)('a technician who only speaks', () => {
  it(
    'should be led through a whole case, with a misheard value corrected by voice',
    { timeout: 300_000 },
    async () => {
      rig = await startRig({ pace: UNHURRIED, voice: voiceIn(scratch) });
      const person = personAt(rig.fake, 6001);
      const place = `telegram:${person.id}`;
      const state = (): Conversation => rig.store.load(place, place).state!;
      const events = (): number => rig.store.load(place, place).pools[0]?.cases[0]?.events.length ?? 0;
      const log: string[] = [];
      const say = async (words: string): Promise<string> => {
        const last = await then(person, () => sends(person, noteOf(words)));
        log.push(`${words} → ${last.text.split('\n').at(-1)!}`);
        return last.text;
      };
      let corrected = 0;
      const corrects = async (value: number): Promise<void> => {
        corrected += 1;
        const stored = rig.store.load(place, place).pools[0]?.readings.length;
        await say(`no, ${inWords(value)}`);
        expect(state().flow.at).toBe('confirm');
        expect(rig.store.load(place, place).pools[0]?.readings.length).toBe(stored);
      };
      const told = async ({ words, value }: Wanted): Promise<void> => {
        const before = JSON.stringify([state().flow, events()]);
        for (const way of words) {
          await say(way);
          for (let turn = 0; turn < 3 && state().flow.at === 'confirm'; turn += 1) {
            const asked = person.messages().findLast(({ text }) => text.startsWith('I heard'))!.text;
            if (value === undefined || asked.includes(` ${value} `)) await say('yes');
            else await corrects(value);
          }
          if (JSON.stringify([state().flow, events()]) !== before) return;
        }
        throw new Error(`Never made out: ${words.join(' / ')}\n${log.join('\n')}`);
      };
      // The first note is answered with the first question.
      await say('say again');
      const isOpen = (): boolean => rig.store.load(place, place).pools[0]?.cases[0]?.outcome === undefined;
      for (let turn = 0; turn < 60 && isOpen(); turn += 1) await told(wordsAt(state()));
      expect(isOpen()).toBe(false);
      const [pool] = rig.store.load(place, place).pools;
      expect(pool?.cases[0]).toMatchObject({ outcome: 'fixed', fault: FAULT, role: 'technician' });
      expect(pool?.readings.map(({ said }) => said)).toContain(`${FILTER_PSI} psi`);
      expect(log.some((line) => /^sixteen psi → I heard: filter pressure six zero, 60 psi/.test(line))).toBe(
        true,
      );
      expect(corrected).toBeGreaterThan(0);
      expect(readdirSync(scratch).filter((name) => name.endsWith('.note'))).toEqual([]);
      console.log(log.join('\n'));
    },
  );

  it('should have replies spoken once they want that, and not before', { timeout: 60_000 }, async () => {
    rig = await startRig({ pace: UNHURRIED, voice: voiceIn(scratch) });
    const person = personAt(rig.fake, 6002);
    await then(person, () => person.says('/start'));
    expect(rig.fake.calls.get('sendVoice')).toBeUndefined();
    await then(person, () => sends(person, noteOf('voice on')));
    expect(rig.fake.calls.get('sendVoice')).toBe(1);
    expect(person.last()?.text).toBe(VOICE_NOTE);
    const bytes = rig.fake.files.get(`sent-${person.last()!.id}`)!;
    expect(bytes.length).toBeGreaterThan(5_000);
    await then(person, () => person.says('technician'));
    expect(rig.fake.calls.get('sendVoice')).toBe(2);
    await then(person, () => person.says('/voice off'));
    expect(rig.fake.calls.get('sendVoice')).toBe(2);
  });

  it(
    'should have notes kept only where they are wanted, and gone with everything else',
    { timeout: 60_000 },
    async () => {
      const folder = join(scratch, 'kept');
      rig = await startRig({ pace: UNHURRIED, voice: voiceIn(folder, 3) });
      const person = personAt(rig.fake, 6003);
      await then(person, () => sends(person, noteOf('say again')));
      expect(readdirSync(folder)).toHaveLength(1);
      await then(person, () => person.says('/erase'));
      await then(person, () => person.presses('Yes'));
      expect(readdirSync(folder)).toEqual([]);
    },
  );
});

describe('without the packages', () => {
  const lacking = (): void => {
    vi.spyOn(capability, 'missingPackages').mockImplementation((ability) =>
      Promise.resolve(ability === 'listening' ? ['pocketsphinx', 'opus-tools'] : ['espeak-ng']),
    );
  };
  /** Voice on a machine without any of the programs. */
  const mute = (): Voice => ({
    ...voiceIn(scratch),
    speaker: { speak: () => Promise.resolve({ kind: 'unspoken', why: 'missing' }) },
  });

  it('should say what is missing, keep the question open, and go on by typing', async () => {
    lacking();
    const { voiceListener } = await import('../../src/media/voice-listener.ts');
    const listener = voiceListener({
      recogniser: { recognise: () => Promise.resolve({ kind: 'unheard', why: 'missing' }) },
      fetch: () => Promise.resolve(),
      needsPrograms: true,
    });
    rig = await startRig({ pace: UNHURRIED, voice: mute(), listener });
    const person = personAt(rig.fake, 6004);
    await then(person, () => person.says('/start'));
    await then(person, () => sends(person, Buffer.from('OggS')));
    const texts = person.messages().map(({ text }) => text);
    expect(texts).toContain(
      'To listen, this machine still needs: pocketsphinx, opus-tools. Please type meanwhile.',
    );
    await then(person, () => person.says('technician'));
    expect(rig.store.load('telegram:6004', 'telegram:6004').state?.flow.at).toBe('complaint');
  });

  it('should say once what speaking needs, and answer in text', async () => {
    lacking();
    rig = await startRig({ pace: UNHURRIED, voice: mute() });
    const person = personAt(rig.fake, 6005);
    await then(person, () => person.says('/voice on'));
    await then(person, () => person.says('technician'));
    const told = person.messages().filter(({ text }) => text.includes('still needs: espeak-ng'));
    expect(told).toHaveLength(1);
    expect(person.question().text).toContain('What is wrong?');
  });

  it.each([
    [{ duration: 61, file_size: 9000 }, 'under a minute'],
    [{ duration: 3, file_size: 2_000_001 }, 'under a minute'],
  ])('should refuse what is too long or too large before fetching it: %o', async (size, words) => {
    rig = await startRig({ voice: mute() });
    const person = personAt(rig.fake, 6006);
    await then(person, () => person.says('/start'));
    await then(person, () => person.sends({ voice: { file_id: 'v', file_unique_id: 'v', ...size } }));
    expect(person.messages().some(({ text }) => text.includes(words))).toBe(true);
    expect(rig.fake.calls.get('getFile')).toBeUndefined();
  });
});
