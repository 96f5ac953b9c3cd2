/** What a person, a platform or a machine can do to the program, it must survive or refuse in plain words. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { Ended, Heard } from './program.ts';
import { looksLikeTrace, messagesIn, run, runInShell, start } from './program.ts';

const folder = mkdtempSync(join(tmpdir(), 'padside-hard-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const file = (name: string): string => join(folder, name);

const line = (value: unknown): string => `${JSON.stringify(value)}\n`;
const text = (words: string): string => line({ text: words });

function expectNoTrace({ out, err }: Ended): void {
  expect(looksLikeTrace(out)).toBe(false);
  expect(looksLikeTrace(err), err).toBe(false);
}

/** Ended with an error in plain words on the error output. */
function expectRefused(ended: Ended, words: RegExp): void {
  expectNoTrace(ended);
  expect(ended.code).toBe(1);
  expect(ended.err).toMatch(words);
}

describe('strange input', () => {
  const strange = [
    'not json\n',
    '{"text":5}\n',
    '[]\n',
    'null\n',
    '{"text":"a","choose":"b"}\n',
    '{"__proto__":{"text":"x"}}\n',
    line({ choose: 'no-such-option' }),
    line({ choose: '' }),
    line({ voice: '/etc/passwd' }),
    line({ photo: 'none.jpg' }),
    text(''),
    text(' \u200b\u200c\ufeff '),
    text('x'.repeat(100_000)),
    text('filter '.repeat(15_000)),
    text('1234567890'.repeat(1000)),
    text('\u202eממשק לא עובד\u202c'),
    text('\u0000\u0007\u001b[31m'),
    text('\ud800'),
    text("'; DROP TABLE pool; --"),
    text('/'.repeat(200)),
  ];

  it('should answer every line with one turn and go on', async () => {
    const noise = Buffer.from(Array.from({ length: 4000 }, (_, index) => (index * 7919 + 13) % 256)).filter(
      (byte) => byte !== 10 && byte !== 13,
    );
    const input = Buffer.concat([
      Buffer.from(strange.join('')),
      Buffer.from(noise),
      Buffer.from(`\n${line({ choose: 'not-moving' })}`),
    ]);
    const ended = await run(input);
    expectNoTrace(ended);
    expect(ended.code).toBe(0);
    const turns = messagesIn(ended.out).filter(({ kind }) => kind === 'turn-end');
    expect(turns).toHaveLength(strange.length + 2);
    expect(turns.at(-1)?.state).toBe('profile');
  });

  it('should take a reading told in words, in full-width digits and with hidden characters', async () => {
    const said = ['filter thirty-four psi', 'filter ３４ psi', 'filter 3\u200b4 psi'];
    const ended = await run(said.map(text).join(''));
    expectNoTrace(ended);
    const verdicts = messagesIn(ended.out).filter(({ id }) => id === 'verdict');
    expect(verdicts.map((verdict) => String(verdict.text).includes('34 psi'))).toEqual([true, true, true]);
  });
});

describe('streams that close', () => {
  it('should end without a word where the standard input is closed', async () => {
    const ended = await runInShell('$PROGRAM <&-');
    expectNoTrace(ended);
    expect(ended.code).toBe(0);
  });

  it('should end quietly where the reader goes away', async () => {
    const ended = await runInShell('$PROGRAM | head -n 1', text('hello').repeat(3000));
    expectNoTrace(ended);
    expect(messagesIn(ended.out)).toHaveLength(1);
  });

  it('should end with a code where the output cannot be written', async () => {
    const ended = await runInShell('$PROGRAM > /dev/full', text('hello'));
    expectNoTrace(ended);
    expect(ended.code).not.toBe(0);
  });
});

describe('a database that cannot be used', () => {
  writeFileSync(file('plain'), 'x');
  writeFileSync(file('notes.sqlite'), 'These are notes and no database.\n'.repeat(200));

  it.each([
    ['is a folder', folder],
    ['is no database', file('notes.sqlite')],
    ['lies below a file', join(file('plain'), 'pool.sqlite')],
    ['lies where no folder can be made', '/proc/padside-none/pool.sqlite'],
  ])('should be refused in plain words where it %s', async (_what, path) => {
    expectRefused(await run(text('hello'), '--db', path), /record cannot be/);
  });

  it('should be refused where no file can grow', async () => {
    const words = `trap '' XFSZ; ulimit -f 8; exec $PROGRAM --db ${file('small.sqlite')}`;
    expectRefused(await runInShell(words, text('hello')), /record cannot be written/);
  });
});

const disk = file('disk');
mkdirSync(disk);
const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=600k', 'tmpfs', disk]).status === 0;
afterAll(() => {
  if (mounted) spawnSync('umount', [disk]);
});

describe.runIf(mounted)('a disk of its own', () => {
  const database = join(disk, 'pool.sqlite');

  it('should be refused when it is full, and go on where it was once there is room', async () => {
    const many = Array.from({ length: 400 }, () => text('/help')).join('');
    const full = await run(line({ choose: 'not-moving' }) + many, '--db', database);
    expectRefused(full, /record cannot be written/);
    spawnSync('mount', ['-o', 'remount,size=8m', disk]);
    const after = await run(text('/start'), '--db', database);
    expect(after.code).toBe(0);
    expect(messagesIn(after.out).at(-1)).toMatchObject({ kind: 'turn-end', state: 'profile' });
  });

  it('should be refused when it is read-only', async () => {
    spawnSync('mount', ['-o', 'remount,ro', disk]);
    const ended = await run(text('hello'), '--db', database);
    spawnSync('mount', ['-o', 'remount,rw', disk]);
    expectRefused(ended, /record cannot be written/);
  });
});

describe('a kill in the middle of a case', () => {
  const lastAsked = (heard: readonly Heard[]): unknown =>
    heard.findLast(({ options }) => options !== undefined)?.id;

  it('should lose nothing: the same question stands when the program is started again', async () => {
    const database = file('killed.sqlite');
    const first = start(database);
    await first.send({ choose: 'not-moving' });
    for (const option of ['suction', 'port', 'no', 'single-speed', 'cartridge'])
      await first.send({ choose: option });
    const asked = lastAsked(await first.send({ text: 'filter 34 psi' }));
    await first.kill();
    const second = start(database);
    const again = await second.send({ text: '/repeat' });
    const history = await second.send({ text: '/history' });
    await second.kill();
    expect(asked).toBeDefined();
    expect(lastAsked(again)).toBe(asked);
    expect(JSON.stringify(history)).toContain('34 psi');
  });
});

describe('a wrong start', () => {
  it('should say in plain words that the log cannot be written', async () => {
    const line = `PADSIDE_LOG=${join(folder, 'none', 'log.txt')} $PROGRAM`;
    expectNoTrace(await runInShell(line, text('hello')));
  });

  it('should list every problem of the command line', async () => {
    expectRefused(await run('', '--role', 'king', '--locale', 'fr'), /--role[^]*--locale|--locale[^]*--role/);
  });
});
