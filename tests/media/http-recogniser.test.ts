/** A service in the common transcription form, good and bad, on this machine. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { httpRecogniser } from '../../src/media/http-recogniser.ts';
import type { Hearing } from '../../src/media/recogniser.ts';
import { notePages } from './ogg-pages.ts';

interface Asked {
  method: string | undefined;
  url: string | undefined;
  key: string | undefined;
  body: string;
}

type Answer = (response: ServerResponse) => void;

let folder = '';
let note = '';
let server: Server;
let asked: Asked[] = [];
let answer: Answer = (response) => response.end('{}');

async function bodyIn(request: IncomingMessage): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of request) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks).toString('utf8');
}

/** The value of a field of a multipart form; RFC 7578, section 4. */
function field(name: string): string | undefined {
  const found = new RegExp(`name="${name}"[^\\r]*(?:\\r\\n[^\\r]+)*\\r\\n\\r\\n(.*?)\\r\\n--`, 'su');
  return found.exec(asked[0]?.body ?? '')?.[1];
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'padside-test-'));
  note = join(folder, 'note.ogg');
  writeFileSync(note, Buffer.concat(notePages(3)));
  server = createServer((request, response) => {
    void bodyIn(request).then((body) => {
      asked.push({ method: request.method, url: request.url, key: request.headers.authorization, body });
      answer(response);
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
});
afterEach(() => {
  asked = [];
});
afterAll(() => {
  server.closeAllConnections();
  server.close();
  rmSync(folder, { recursive: true, force: true });
});

const address = (): string => `http://127.0.0.1:${(server.address() as AddressInfo).port}`;

const json =
  (body: unknown, status = 200): Answer =>
  (response) =>
    response.writeHead(status, { 'content-type': 'application/json' }).end(JSON.stringify(body));

function hear(
  way: Answer,
  language = 'es',
  more: { key?: string; timeMs?: number; url?: string } = {},
): Promise<Hearing> {
  answer = way;
  return httpRecogniser({ url: address(), ...more }).recognise(note, {
    language,
    expecting: { options: [{ id: 'clear', label: 'Está libre' }] },
  });
}

describe('a transcription service', () => {
  it('should get the file, the language and likely words, and its text should be heard', async () => {
    const heard = await hear(json({ text: ' filtro veintidós ' }), 'es', { key: 'k-123' });
    expect(heard).toEqual({ kind: 'heard', text: 'filtro veintidós', alternatives: [], confidence: 0.6 });
    const [first] = asked;
    expect([first?.method, first?.url, first?.key]).toEqual([
      'POST',
      '/v1/audio/transcriptions',
      'Bearer k-123',
    ]);
    expect(field('language')).toBe('es');
    expect(field('prompt')).toBe('Está libre');
    expect(field('file')).toContain('OpusHead');
    expect(first?.body).toContain('filename="note.ogg"');
  });

  it('should need no key', async () => {
    await hear(json({ text: 'hola' }));
    expect(asked[0]?.key).toBeUndefined();
  });

  it.each(['/v1', '/v1/audio/transcriptions', '/', ''])(
    'should be found at an address that ends in %j',
    async (end) => {
      await hear(json({ text: 'hola' }), 'es', { url: address() + end });
      expect(asked[0]?.url).toBe('/v1/audio/transcriptions');
    },
  );

  it('should tell how sure it is where it can', async () => {
    const segments = [{ avg_logprob: Math.log(0.9) }, { avg_logprob: Math.log(0.9) }];
    const heard = await hear(json({ text: 'hola', segments }));
    expect(heard.kind === 'heard' ? heard.confidence : 0).toBeCloseTo(0.9);
  });

  it.each<[string, Answer, Hearing]>([
    ['hears nothing', json({ text: '  ' }), { kind: 'unheard', why: 'nothing' }],
    ['is broken', json({}, 500), { kind: 'unheard', why: 'missing' }],
    ['refuses the key', json({}, 401), { kind: 'unheard', why: 'missing' }],
    ['refuses the size', json({}, 413), { kind: 'unheard', why: 'too-big' }],
    ['refuses the file', json({}, 400), { kind: 'unheard', why: 'not-audio' }],
    ['answers with something else', json({ words: 3 }), { kind: 'unheard', why: 'missing' }],
    ['answers with no JSON', (response) => response.end('<html>'), { kind: 'unheard', why: 'missing' }],
    [
      'answers endlessly',
      (response) => response.end('x'.repeat(5_000_000)),
      { kind: 'unheard', why: 'missing' },
    ],
    ['hangs up', (response) => response.destroy(), { kind: 'unheard', why: 'missing' }],
    [
      'sends elsewhere',
      (response) => response.writeHead(302, { location: 'http://127.0.0.1:1/' }).end(),
      { kind: 'unheard', why: 'missing' },
    ],
  ])('should be survived when it %s', async (_, way, expected) => {
    expect(await hear(way)).toEqual(expected);
  });

  it('should be given up on when it is slow, in its answer or in the middle of it', async () => {
    expect(await hear(() => undefined, 'es', { timeMs: 200 })).toEqual({ kind: 'unheard', why: 'slow' });
    const drip: Answer = (response) => void response.writeHead(200).write('{"text":');
    expect(await hear(drip, 'es', { timeMs: 200 })).toEqual({ kind: 'unheard', why: 'slow' });
  });

  it('should be called missing where nobody answers', async () => {
    const nobody = httpRecogniser({ url: 'http://127.0.0.1:1' });
    expect(await nobody.recognise(note, { language: 'en' })).toEqual({ kind: 'unheard', why: 'missing' });
  });

  it('should not be sent what is no recording', async () => {
    writeFileSync(join(folder, 'text'), 'secret notes');
    const heard = await httpRecogniser({ url: address() }).recognise(join(folder, 'text'), {
      language: 'en',
    });
    expect(heard).toEqual({ kind: 'unheard', why: 'not-audio' });
    expect(asked).toEqual([]);
  });

  it('should have its text cut where it is longer than any speech', async () => {
    const heard = await hear(json({ text: 'la '.repeat(5_000) }));
    expect(heard.kind === 'heard' ? heard.text.length : 0).toBeLessThanOrEqual(2_000);
  });
});
