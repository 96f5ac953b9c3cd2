import type { Server } from 'node:http';
import { request } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { TelegramIncoming } from '../../../src/channels/telegram/ports.ts';
import { webhookServer } from '../../../src/channels/telegram/webhook.ts';

const SECRET = 'a-secret-of-nobody-1';
const GOOD = {
  update_id: 4,
  message: {
    message_id: 1,
    date: 1,
    chat: { id: 5, type: 'private' },
    from: { id: 5, is_bot: false, first_name: 'A' },
    text: 'hi',
  },
};

let server: Server;
let url: string;
let taken: TelegramIncoming[][];
let storeFails: boolean;
let unusable: unknown[];
beforeEach(async () => {
  taken = [];
  unusable = [];
  storeFails = false;
  server = webhookServer({
    self: { id: 77, username: 'bot' },
    receive: (updates) => {
      if (storeFails) throw new Error('disk full');
      taken.push([...updates]);
    },
    journal: { event: () => undefined },
    secret: SECRET,
    path: '/hook',
    onUnusable: (error) => void unusable.push(error),
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
});
afterEach(() => {
  server.closeAllConnections();
  server.close();
});

async function post(body: string, secret: string | undefined = SECRET, path = '/hook'): Promise<number> {
  const headers = secret === '' ? {} : { 'x-telegram-bot-api-secret-token': secret };
  const response = await fetch(url + path, { method: 'POST', headers, body });
  await response.text();
  return response.status;
}

describe('the webhook', () => {
  it('should answer once the update is in the inbox', async () => {
    expect(await post(JSON.stringify(GOOD))).toBe(200);
    expect(taken.flat().map(({ key }) => key)).toEqual(['4']);
  });

  it('should refuse a wrong or missing secret and take nothing in', async () => {
    for (const secret of ['', 'x', `${SECRET}x`, SECRET.slice(0, -1), SECRET.toUpperCase()])
      expect(await post(JSON.stringify(GOOD), secret)).toBe(401);
    expect(taken).toEqual([]);
  });

  it('should refuse other paths and methods, and bodies that are no update', async () => {
    expect(await post('{}', SECRET, '/other')).toBe(404);
    expect((await fetch(`${url}/hook`)).status).toBe(405);
    for (const body of ['', 'no json', '[]', '{}', '{"update_id":"4"}', '{"update_id":-1}', 'null'])
      expect(await post(body), body).toBe(400);
    expect(taken).toEqual([]);
  });

  it('should cut off a body that is too long', async () => {
    const status = await new Promise<number>((resolve) => {
      const call = request(
        `${url}/hook`,
        { method: 'POST', headers: { 'x-telegram-bot-api-secret-token': SECRET } },
        (response) => resolve(response.statusCode ?? 0),
      );
      call.on('error', () => resolve(0));
      for (let n = 0; n < 40; n += 1) call.write('x'.repeat(100_000));
      call.end();
    });
    expect([413, 0]).toContain(status);
    expect(taken).toEqual([]);
    expect(await post(JSON.stringify(GOOD))).toBe(200);
  });

  it('should leave an update that it cannot read and answer, so that it is not sent for ever', async () => {
    expect(await post('{"update_id":5,"message":null}')).toBe(200);
    expect(await post('{"update_id":6,"something_new":{}}')).toBe(200);
    expect(taken).toEqual([]);
  });

  it('should answer with 500 where the store fails, so that the update comes again', async () => {
    storeFails = true;
    expect(await post(JSON.stringify(GOOD))).toBe(500);
    expect(unusable).toHaveLength(1);
  });

  it('should write the inbox once for updates that come together', async () => {
    const answers = await Promise.all(
      Array.from({ length: 40 }, (_, n) => post(JSON.stringify({ ...GOOD, update_id: n }))),
    );
    expect(new Set(answers)).toEqual(new Set([200]));
    expect(taken.flat()).toHaveLength(40);
    expect(taken.length).toBeLessThan(40);
  });
});
