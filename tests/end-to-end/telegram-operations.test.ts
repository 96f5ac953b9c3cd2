import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { ConfigInvalid, readConfig } from '../../src/app/config.ts';
import { openStore } from '../../src/store/store.ts';
import { personAt } from '../fake-bot-api/person.ts';
import { bundled, startBot } from '../fake-bot-api/process.ts';
import type { FakeBotApi } from '../fake-bot-api/server.ts';
import { startFakeBotApi, TOKEN } from '../fake-bot-api/server.ts';

function problemsOf(environment: Record<string, string>, args: string[] = []): readonly string[] {
  try {
    readConfig(args, environment);
    return [];
  } catch (error) {
    if (error instanceof ConfigInvalid) return error.problems;
    throw error;
  }
}

describe('the configuration', () => {
  it('should serve the platform where there is a token, and the terminal where there is none or it is asked for', () => {
    expect(readConfig([], {}).channel).toBe('terminal');
    expect(readConfig([], { PADSIDE_TELEGRAM_TOKEN: '' }).channel).toBe('terminal');
    expect(readConfig([], { PADSIDE_TELEGRAM_TOKEN: TOKEN }).channel).toBe('telegram');
    expect(readConfig(['--jsonl'], { PADSIDE_TELEGRAM_TOKEN: TOKEN }).channel).toBe('jsonl');
    expect(readConfig(['--terminal'], { PADSIDE_TELEGRAM_TOKEN: TOKEN }).channel).toBe('terminal');
  });

  it('should be refused with every problem at once, and never repeat a secret', () => {
    const problems = problemsOf(
      {
        PADSIDE_TELEGRAM_TOKEN: 'not-a-token',
        PADSIDE_TELEGRAM_API_ROOT: 'ftp://x',
        PADSIDE_WEBHOOK_URL: 'http://plain.example/hook',
        PADSIDE_WEBHOOK_LISTEN: 'nowhere',
        PADSIDE_HEALTH_PORT: '70000',
      },
      ['--locale', 'xx'],
    );
    for (const name of [
      '--locale',
      '_TOKEN',
      '_API_ROOT',
      '_WEBHOOK_URL',
      '_WEBHOOK_LISTEN',
      '_HEALTH_PORT',
      '_WEBHOOK_SECRET',
    ])
      expect(
        problems.some((line) => line.includes(name)),
        name,
      ).toBe(true);
    expect(problems.join()).not.toContain('not-a-token');
  });

  it('should read the token from a file, and say so where that cannot be done', () => {
    const folder = mkdtempSync(join(tmpdir(), 'padside-config-'));
    const file = join(folder, 'token');
    writeFileSync(file, `${TOKEN}\n`);
    expect(readConfig([], { PADSIDE_TELEGRAM_TOKEN_FILE: file }).telegram?.token).toBe(TOKEN);
    expect(problemsOf({ PADSIDE_TELEGRAM_TOKEN_FILE: join(folder, 'none') })).toEqual([
      expect.stringMatching(/cannot be read/),
    ]);
    expect(problemsOf({ PADSIDE_TELEGRAM_TOKEN_FILE: file, PADSIDE_TELEGRAM_TOKEN: TOKEN })).toEqual([
      expect.stringMatching(/both set/),
    ]);
    rmSync(folder, { recursive: true });
  });
});

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  await new Promise((resolve) => server.close(resolve));
  return port;
}

describe('the process', () => {
  let bundle: string;
  let folder: string;
  let fake: FakeBotApi;
  beforeAll(() => {
    bundle = bundled();
  });
  afterAll(() => rmSync(bundle, { recursive: true }));
  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), 'padside-process-'));
    fake = await startFakeBotApi();
  });
  afterEach(async () => {
    await fake.close();
    rmSync(folder, { recursive: true });
  });
  const settings = (more: Record<string, string> = {}): Record<string, string> => ({
    PADSIDE_TELEGRAM_TOKEN: fake.token,
    PADSIDE_TELEGRAM_API_ROOT: fake.apiRoot,
    PADSIDE_DB: join(folder, 'bot.sqlite'),
    PADSIDE_LOG: join(folder, 'log'),
    ...more,
  });

  it('should tell its health and figures on loopback', async () => {
    const port = await freePort();
    const bot = startBot(bundle, settings({ PADSIDE_HEALTH_PORT: String(port) }));
    const person = personAt(fake, 5001);
    person.says('/start');
    await person.answered(0);
    await pause(200);
    const health = await fetch(`http://127.0.0.1:${port}/health`);
    expect(health.status).toBe(200);
    expect(await health.json()).toEqual({
      status: 'ok',
      inbox: 0,
      outbox: 0,
      inFlight: 0,
      lastPoll: expect.stringMatching(/^\d{4}-/) as string,
      lastDelivery: expect.stringMatching(/^\d{4}-/) as string,
    });
    const metrics = await (await fetch(`http://127.0.0.1:${port}/metrics`)).text();
    expect(metrics).toMatch(/^padside_turns_total 1$/m);
    // Exposition format of Prometheus, "Text-based format": comments, and lines of a name, labels and a number.
    for (const row of metrics.trim().split('\n'))
      expect(row).toMatch(
        /^(# (HELP|TYPE) \S+ .+|[a-z_]+(\{[a-z]+="[a-z-]+"\})? -?\d+(\.\d+)?(e[+-]?\d+)?)$/,
      );
    bot.child.kill('SIGTERM');
    expect(await bot.ended).toMatchObject({ code: 0, errors: '' });
  });

  it('should end within ten seconds of SIGTERM even where the platform does not answer, and keep what is unsent', async () => {
    const bot = startBot(bundle, settings());
    const person = personAt(fake, 5002);
    person.says('/start');
    await person.answered(0);
    fake.faults = (method) => (method === 'sendMessage' ? { kind: 'stall' } : undefined);
    person.says('owner');
    await pause(400);
    const began = Date.now();
    bot.child.kill('SIGTERM');
    expect((await bot.ended).code).toBe(0);
    expect(Date.now() - began).toBeLessThan(10_000);
    const store = openStore(join(folder, 'bot.sqlite'));
    expect(store.outbox.open()).toBe(1);
    store.close();
    fake.faults = undefined;
    const again = startBot(bundle, settings());
    expect((await person.answered(1)).text).toMatch(/What is wrong/);
    again.child.kill('SIGTERM');
    await again.ended;
  });

  it('should say in plain words that the token is refused', async () => {
    const bot = startBot(
      bundle,
      settings({ PADSIDE_TELEGRAM_TOKEN: '999999:another-token-of-nobody-at-all' }),
    );
    const { code, errors } = await bot.ended;
    expect(code).toBe(1);
    expect(errors).toBe(
      'The platform refuses the token. Check PADSIDE_TELEGRAM_TOKEN, or ask the platform for a new one.\n',
    );
  });

  it('should start while the platform is away, and serve as soon as it is back', async () => {
    fake.faults = () => ({ kind: 'reset-before' });
    const bot = startBot(bundle, settings());
    await pause(1500);
    fake.faults = undefined;
    const person = personAt(fake, 5003, { language: 'es' });
    person.says('/start');
    expect((await person.answered(0)).text).toMatch(/¿Quién/);
    expect(readFileSync(join(folder, 'log'), 'utf8')).not.toContain(fake.token);
    bot.child.kill('SIGTERM');
    await bot.ended;
  });
});
