/** What comes in as a recording is looked at before any program sees it. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync, mkdirSync, existsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { audioFile } from '../../src/media/audio-file.ts';
import { runBounded } from '../../src/media/bounded.ts';
import { LARGEST_BYTES } from '../../src/media/limits.ts';
import { loudnessSpreadDb, samplesOf } from '../../src/media/wave.ts';
import { inWorkFolder, removeLeftFolders } from '../../src/media/work-folder.ts';
import { notePages } from './ogg-pages.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'padside-test-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function file(name: string, bytes: Buffer | string): string {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}

function wave(samples: readonly number[], rate = 16_000, channels = 1): Buffer {
  const bytes = Buffer.alloc(44 + samples.length * 2);
  bytes.write('RIFF\0\0\0\0WAVEfmt ', 'latin1');
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(channels, 22);
  bytes.writeUInt32LE(rate, 24);
  bytes.writeUInt16LE(16, 34);
  bytes.write('data', 36);
  bytes.writeUInt32LE(0xffffffff, 40);
  samples.forEach((sample, at) => bytes.writeInt16LE(sample, 44 + 2 * at));
  return bytes;
}

describe('a file', () => {
  it.each([
    ['empty', '', 'nothing'],
    ['text', 'hello', 'not-audio'],
    ['large', Buffer.alloc(LARGEST_BYTES + 1), 'too-big'],
    ['long', Buffer.concat(notePages(61)), 'too-long'],
    ['an Ogg file with a damaged head', Buffer.concat([Buffer.from('OggS'), ...notePages(3)]), 'not-audio'],
    ['a voice note without any sound', Buffer.concat(notePages(3).slice(0, 2)), 'not-audio'],
  ])('should be refused when %s', async (name, bytes, why) => {
    expect(await audioFile(file(name, bytes))).toEqual({ is: 'refused', why });
  });

  it.each(['/nowhere/at/all', '/dev/zero', '/proc/self', '/tmp', ''])(
    'should be refused at %j',
    async (path) => {
      expect(await audioFile(path)).toEqual({ is: 'refused', why: 'not-audio' });
    },
  );

  it('should be refused, and not waited for, when it is a pipe', async () => {
    const pipe = join(folder, 'pipe');
    execFileSync('sh', ['-c', 'exec mkfifo "$1"', 'sh', pipe]);
    expect(await audioFile(pipe)).toEqual({ is: 'refused', why: 'not-audio' });
  });

  it('should be taken as Opus up to a minute', async () => {
    const minute = file('minute', Buffer.concat(notePages(60)));
    expect(await audioFile(minute)).toMatchObject({ is: 'audio', kind: 'opus' });
  });

  it('should be taken up to the first page that is damaged, cut off, or of another recording', async () => {
    const [head, tags, sound, last] = notePages(3) as [Buffer, Buffer, Buffer, Buffer];
    const whole = Buffer.concat([head, tags, sound]);
    const bent = Buffer.from(last);
    bent[30] = (bent[30] ?? 0) ^ 1;
    for (const [name, rest] of [
      ['bent', bent],
      ['cut', last.subarray(0, 20)],
      ['joined', Buffer.concat([head, tags, sound, last])],
    ] as const)
      expect(await audioFile(file(name, Buffer.concat([whole, rest])))).toEqual({
        is: 'audio',
        kind: 'opus',
        bytes: whole,
      });
  });
});

describe('a WAVE file', () => {
  it('should give its samples, two channels as one', () => {
    expect([...(samplesOf(wave([1, -2, 300])) ?? [])]).toEqual([1, -2, 300]);
    expect([...(samplesOf(wave([100, 300, -4, -8], 16_000, 2)) ?? [])]).toEqual([200, -6]);
  });

  it.each([
    wave([1], 8_000),
    wave([1], 16_000, 0),
    Buffer.from('RIFF'),
    Buffer.alloc(0),
    wave([]).subarray(0, 30),
  ])('should give none where it is damaged or of another rate', (bytes) =>
    expect(samplesOf(bytes)).toBeUndefined(),
  );

  it('should show how far speech stands out of noise', () => {
    const loud = (level: number): number[] =>
      Array.from({ length: 16_000 }, (_, at) => (at % 2 ? level : -level));
    expect(loudnessSpreadDb(Int16Array.from([...loud(10_000), ...loud(100)]))).toBeCloseTo(40, 1);
    expect(loudnessSpreadDb(Int16Array.from(loud(500)))).toBeCloseTo(0, 6);
    expect(loudnessSpreadDb(new Int16Array(0))).toBe(0);
  });
});

describe('a program that is run within bounds', () => {
  it('should be killed with its children when its time is up', async () => {
    const began = Date.now();
    expect(await runBounded('sh', ['-c', 'sleep 60 & sleep 60'], { timeMs: 300 })).toEqual({ came: 'slow' });
    expect(Date.now() - began).toBeLessThan(5_000);
  });

  it('should be named missing when it is', async () => {
    expect(await runBounded('no-such-program-here', [], { timeMs: 5_000 })).toEqual({ came: 'missing' });
  });

  it('should not write more than it may', async () => {
    const out = join(folder, 'much');
    const ran = await runBounded('sh', ['-c', `exec head -c 5000000 /dev/zero > ${out}`], {
      timeMs: 5_000,
      fileBytes: 1_000_000,
    });
    expect(ran).toMatchObject({ came: 'broken', signal: 'SIGXFSZ' });
  });

  it('should not take more memory than it may', async () => {
    const ran = await runBounded('python3', ['-c', 'x = bytearray(600_000_000)'], { timeMs: 10_000 });
    expect(ran).toMatchObject({ came: 'ended', code: 1 });
  });

  it('should see nothing of the environment', async () => {
    process.env.PADSIDE_TEST_SECRET = 'hidden';
    const ran = await runBounded('env', [], { timeMs: 5_000 });
    delete process.env.PADSIDE_TEST_SECRET;
    expect(ran.came === 'ended' ? ran.printed.toString() : '').not.toContain('hidden');
  });
});

describe('a folder for work', () => {
  it('should be gone afterwards, also when the work fails', async () => {
    let seen = '';
    await expect(
      inWorkFolder((path) => {
        seen = path;
        writeFileSync(join(path, 'x'), 'x');
        return Promise.reject(new Error('broken'));
      }),
    ).rejects.toThrow('broken');
    expect(existsSync(seen)).toBe(false);
  });

  it('should be removed at a start where a killed process left it, others not', async () => {
    const old = mkdtempSync(join(tmpdir(), 'padside-voice-'));
    const young = mkdtempSync(join(tmpdir(), 'padside-voice-'));
    mkdirSync(join(old, 'in'));
    const now = Date.now();
    utimesSync(old, new Date(now - 7_200_000), new Date(now - 7_200_000));
    await removeLeftFolders(now);
    expect([existsSync(old), existsSync(young)]).toEqual([false, true]);
    rmSync(young, { recursive: true });
    expect(readdirSync(tmpdir())).not.toContain(old);
  });
});
