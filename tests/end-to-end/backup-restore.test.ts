import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openStore } from '../../src/store/store.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const POOL = { id: 'p1', name: 'Test pool', equipment: { cleaner: 'suction' }, clean: {} } as const;
const A_DAY = 86_400_000;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'padside-copy-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

/** Runs the command as a person does. */
function npm(verb: 'backup' | 'restore', ...args: string[]): { status: number | null; said: string } {
  const env = { ...process.env, PADSIDE_DB: join(folder, 'bot.sqlite') };
  const run = spawnSync('npm', ['run', '-s', verb, '--', ...args], { cwd: ROOT, env, encoding: 'utf8' });
  return { status: run.status, said: run.stdout + run.stderr };
}

function says(text: string, at: number): void {
  const store = openStore(join(folder, 'bot.sqlite'));
  store.seed('person', { ...POOL, id: `p${at}` }, at);
  store.receive(
    [{ channel: 'x', key: `${at}`, conversation: 'c', person: 'person', body: { kind: 'text', text } }],
    at,
  );
  store.close();
}

function pools(): number {
  const store = openStore(join(folder, 'bot.sqlite'));
  const { length } = store.load('c', 'person').pools;
  store.close();
  return length;
}

describe('backup and restore', () => {
  it('should bring back what was there, and keep what is replaced', () => {
    says('first', A_DAY);
    const file = join(folder, 'copy', 'monday.sqlite');
    expect(npm('backup', file)).toMatchObject({ status: 0 });
    expect(readdirSync(join(folder, 'copy'))).toEqual(['monday.sqlite']);
    says('second', 2 * A_DAY);
    expect(pools()).toBe(2);
    const refused = npm('restore', file);
    expect(refused.status).toBe(1);
    expect(refused.said).toMatch(/after this backup/);
    expect(pools()).toBe(2);
    expect(npm('restore', file, '--even-if-newer')).toMatchObject({ status: 0 });
    expect(pools()).toBe(1);
    const kept = readdirSync(folder).find((name) => name.includes('.before-'));
    const before = new Database(join(folder, kept ?? ''), { readonly: true });
    expect(before.prepare('SELECT COUNT(*) AS n FROM pool').get()).toEqual({ n: 2 });
    before.close();
  });

  it('should be taken while the bot writes, and not be put back while it runs', () => {
    says('first', A_DAY);
    const running = openStore(join(folder, 'bot.sqlite'));
    const file = join(folder, 'copy.sqlite');
    expect(npm('backup', file).status).toBe(0);
    const refused = npm('restore', file);
    expect(refused.status).toBe(1);
    expect(refused.said).toMatch(/in use/);
    expect(running.load('c', 'person').pools).toHaveLength(1);
    running.close();
    expect(npm('restore', file).status).toBe(0);
    expect(pools()).toBe(1);
  });

  it('should restore onto a machine that has no database yet', () => {
    says('first', A_DAY);
    const file = join(folder, 'copy.sqlite');
    npm('backup', file);
    rmSync(join(folder, 'bot.sqlite'));
    expect(npm('restore', file).status).toBe(0);
    expect(pools()).toBe(1);
  });

  it('should say in plain words what is wrong, and overwrite nothing', () => {
    const file = join(folder, 'copy.sqlite');
    expect(npm('backup', file).said).toMatch(/no database/);
    says('first', A_DAY);
    writeFileSync(file, 'not a database at all, only words that are long enough to be read as one');
    expect(npm('backup', file).said).toMatch(/there already/);
    expect(npm('restore', file).said).toMatch(/no backup/);
    expect(npm('restore').said).toMatch(/Give a file/);
    const later = join(folder, 'later.sqlite');
    npm('backup', later);
    const database = new Database(later);
    database.pragma('user_version = 999');
    database.close();
    expect(npm('restore', later).said).toMatch(/later version/);
    expect(existsSync(join(folder, 'bot.sqlite'))).toBe(true);
    expect(pools()).toBe(1);
  });
});
