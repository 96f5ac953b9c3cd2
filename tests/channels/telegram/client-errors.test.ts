import nock from 'nock';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { clientOf } from '../../../src/channels/telegram/client.ts';
import type { Failure } from '../../../src/channels/telegram/failure.ts';
import { failureOf } from '../../../src/channels/telegram/failure.ts';
import { delayMs, persistently } from '../../../src/channels/telegram/patience.ts';
import { pollForever } from '../../../src/channels/telegram/polling.ts';
import { USUAL_TIMING } from '../../../src/channels/telegram/ports.ts';

const ROOT = 'http://bot-api.test';
const TOKEN = '123456:TEST-token-of-nobody-at-all-0001';
const api = clientOf({ token: TOKEN, apiRoot: ROOT }, 300);
const QUICK = {
  ...USUAL_TIMING,
  pollMs: 1000,
  stallMs: 150,
  backoffMs: 5,
  longestBackoffMs: 20,
  secondMs: 5,
};

beforeAll(() => nock.disableNetConnect());
afterEach(() => nock.cleanAll());
afterAll(() => {
  nock.enableNetConnect();
  nock.restore();
});

function answering(method: string, status: number, body: object): nock.Scope {
  return nock(ROOT).post(`/bot${TOKEN}/${method}`).reply(status, body);
}

async function failure(): Promise<Failure> {
  try {
    await api.sendMessage(1, 'hello');
  } catch (error) {
    return failureOf(error);
  }
  throw new Error('The call should have failed');
}

describe('what a failed call means', () => {
  // Codes and parameters as the public Bot API documentation gives them under "Making requests" and "ResponseParameters".
  it.each<[number, object, Failure]>([
    [
      429,
      { description: 'Too Many Requests', parameters: { retry_after: 17 } },
      { kind: 'flood', seconds: 17 },
    ],
    [429, { description: 'Too Many Requests' }, { kind: 'flood', seconds: 5 }],
    [409, { description: 'Conflict' }, { kind: 'conflict' }],
    [403, { description: 'Forbidden: bot was blocked by the user' }, { kind: 'blocked' }],
    [401, { description: 'Unauthorized' }, { kind: 'unauthorised' }],
    [404, { description: 'Not Found' }, { kind: 'unauthorised' }],
    [
      400,
      { description: 'Bad Request: chat not found' },
      { kind: 'refused', code: 400, description: 'Bad Request: chat not found' },
    ],
    [500, { description: 'Internal Server Error' }, { kind: 'passing', code: 500 }],
    [502, { description: 'Bad Gateway' }, { kind: 'passing', code: 502 }],
  ])('should sort %i', async (code, facts, expected) => {
    answering('sendMessage', code, { ok: false, error_code: code, ...facts });
    expect(await failure()).toEqual(expected);
  });

  it('should take a broken connection as passing, and never let the token into its facts', async () => {
    nock(ROOT)
      .post(/./)
      .replyWithError({ code: 'ECONNRESET', message: `reset at /bot${TOKEN}` });
    const met = await failure();
    expect(met).toEqual({ kind: 'passing', code: 'ECONNRESET' });
    expect(JSON.stringify(met)).not.toContain(TOKEN);
  });

  it('should take an answer that is no JSON, as a gateway gives, as passing', async () => {
    nock(ROOT).post(/./).reply(502, '<html>Bad gateway</html>');
    expect((await failure()).kind).toBe('passing');
  });

  it('should take an answer that does not come in time as passing', async () => {
    nock(ROOT).post(/./).delay(1000).reply(200, { ok: true, result: {} });
    expect((await failure()).kind).toBe('passing');
    nock.abortPendingRequests();
  });
});

describe('how long to wait', () => {
  it('should wait as long as the platform says after a flood, and twice as long each time after other failures', () => {
    expect(delayMs({ kind: 'flood', seconds: 17 }, 3, 0, USUAL_TIMING)).toBe(17_000);
    const waits = [0, 1, 2, 3, 10].map((failures) =>
      delayMs({ kind: 'passing', code: 500 }, failures, 1, USUAL_TIMING),
    );
    expect(waits).toEqual([1000, 2000, 4000, 8000, 30_000]);
    expect(delayMs({ kind: 'passing', code: 500 }, 10, 0, USUAL_TIMING)).toBe(22_500);
  });

  it('should notice a stalled poll well within 90 s', () => {
    expect(USUAL_TIMING.stallMs).toBeLessThan(90_000);
    expect(USUAL_TIMING.stallMs).toBeGreaterThan(USUAL_TIMING.pollMs);
  });
});

describe('a call that has to work', () => {
  it('should be made again through floods, gateways and resets', async () => {
    answering('getMe', 429, {
      ok: false,
      error_code: 429,
      description: 'Too Many Requests',
      parameters: { retry_after: 1 },
    });
    answering('getMe', 502, { ok: false, error_code: 502, description: 'Bad Gateway' });
    nock(ROOT).post(`/bot${TOKEN}/getMe`).replyWithError({ code: 'ECONNREFUSED' });
    answering('getMe', 200, { ok: true, result: { id: 77 } });
    const met: string[] = [];
    const self = await persistently(
      () => api.getMe(),
      new AbortController().signal,
      QUICK,
      ({ kind }) => met.push(kind),
    );
    expect(self.id).toBe(77);
    expect(met).toEqual(['flood', 'passing', 'passing']);
  });

  it('should be given up at once where the token is refused', async () => {
    answering('getMe', 401, { ok: false, error_code: 401, description: 'Unauthorized' });
    const call = persistently(
      () => api.getMe(),
      new AbortController().signal,
      QUICK,
      () => undefined,
    );
    await expect(call).rejects.toThrow(/401/);
  });
});

describe('polling', () => {
  it('should go on through conflicts, floods and stalls, and confirm a batch only after it was taken in', async () => {
    const offsets: unknown[] = [];
    const taken: string[] = [];
    const events: string[] = [];
    const stop = new AbortController();
    const poll = (): nock.Interceptor =>
      nock(ROOT).post(`/bot${TOKEN}/getUpdates`, (body: { offset?: number }) => {
        offsets.push([body.offset, taken.length]);
        return true;
      });
    const message = (id: number): object => ({
      update_id: id,
      message: {
        message_id: id,
        date: 1,
        chat: { id: 5, type: 'private' },
        from: { id: 5, is_bot: false, first_name: 'A' },
        text: `t${id}`,
      },
    });
    poll().reply(409, { ok: false, error_code: 409, description: 'Conflict' });
    poll().reply(200, { ok: true, result: [message(8), message(9)] });
    poll().delay(2000).reply(200, { ok: true, result: [] });
    poll().reply(429, {
      ok: false,
      error_code: 429,
      description: 'Too Many Requests',
      parameters: { retry_after: 1 },
    });
    poll().reply(200, () => {
      setTimeout(() => stop.abort(), 30);
      return { ok: true, result: [message(10)] };
    });
    await pollForever({
      api: clientOf({ token: TOKEN, apiRoot: ROOT }, 5000),
      self: { id: 77, username: 'bot' },
      receive: (updates) => void taken.push(...updates.map(({ key }) => key)),
      journal: { event: (kind) => void events.push(kind) },
      timing: QUICK,
      signal: stop.signal,
    });
    nock.abortPendingRequests();
    expect(taken).toEqual(['8', '9', '10']);
    expect(offsets.slice(0, 5)).toEqual([
      [undefined, 0],
      [undefined, 0],
      [10, 2],
      [10, 2],
      [10, 2],
    ]);
    expect(events).toContain('poll-stalled');
  });
});
