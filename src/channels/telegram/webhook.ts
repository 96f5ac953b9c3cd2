/** The platform calls us: a plain HTTP server behind something that speaks HTTPS. */
import { createHash, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import { createServer } from 'node:http';
import type { Update } from 'grammy/types';
import { z } from 'zod';
import { takeIn } from './intake.ts';
import type { Receive } from './intake.ts';
import type { Journal } from './ports.ts';
import type { Self } from './update.ts';

const MOST_BYTES = 1_000_000;
const SECRET_HEADER = 'x-telegram-bot-api-secret-token';
/** A caller that dawdles longer than this is cut off. */
const REQUEST_MS = 15_000;
/** Updates that come within this time share one flush of the disk, which itself takes longer. */
const GATHER_MS = 2;

export interface WebhookParts {
  self: Self;
  receive: Receive;
  journal: Journal;
  secret: string;
  path: string;
  /** The store cannot be used: the program has to end. */
  onUnusable: (error: unknown) => void;
}

const updateSchema = z.looseObject({ update_id: z.int().nonnegative() });

function digest(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}

/** Compares in a time that tells nothing of the secret. */
function isSecret(given: unknown, secret: string): boolean {
  return timingSafeEqual(digest(typeof given === 'string' ? given : ''), digest(secret));
}

/** The body, or undefined where it is too long. */
async function bodyOf(request: IncomingMessage): Promise<string | undefined> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    bytes += chunk.length;
    if (bytes > MOST_BYTES) return undefined;
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString('utf8');
}

function updateOf(body: string): Update | undefined {
  try {
    return updateSchema.safeParse(JSON.parse(body)).data;
  } catch {
    return undefined;
  }
}

function answer(response: ServerResponse, status: number): void {
  response.writeHead(status, { 'content-type': 'application/json' });
  response.end('{}');
}

/** Gathers the updates of one moment, so that the inbox is written once for all of them. */
function gatherer({ self, receive, journal }: WebhookParts): (update: Update) => Promise<void> {
  let waiting: { update: Update; done: (error?: unknown) => void }[] = [];
  const flush = (): void => {
    const batch = waiting;
    waiting = [];
    try {
      journal.event('poll', { updates: batch.length });
      takeIn(
        batch.map(({ update }) => update),
        self,
        receive,
        journal,
      );
      for (const { done } of batch) done();
    } catch (error) {
      for (const { done } of batch) done(error);
    }
  };
  return (update) =>
    new Promise((resolve, reject) => {
      if (waiting.length === 0) setTimeout(flush, GATHER_MS);
      waiting.push({
        update,
        done: (error) =>
          error === undefined ? resolve() : reject(error instanceof Error ? error : new Error()),
      });
    });
}

async function handle(
  request: IncomingMessage,
  response: ServerResponse,
  parts: WebhookParts,
  gather: (update: Update) => Promise<void>,
): Promise<void> {
  if (request.url !== parts.path) {
    answer(response, 404);
    return;
  }
  if (request.method !== 'POST') {
    answer(response, 405);
    return;
  }
  if (!isSecret(request.headers[SECRET_HEADER], parts.secret)) {
    answer(response, 401);
    return;
  }
  // A caller that goes away while it speaks has said nothing.
  const body = await bodyOf(request).catch(() => undefined);
  if (body === undefined) {
    response.setHeader('connection', 'close');
    answer(response, 413);
    return;
  }
  const update = updateOf(body);
  if (update === undefined) {
    answer(response, 400);
    return;
  }
  await gather(update);
  answer(response, 200);
}

/** Serves the webhook; the answer goes out as soon as the update is in the inbox. */
export function webhookServer(parts: WebhookParts): Server {
  const gather = gatherer(parts);
  const server = createServer((request, response) => {
    handle(request, response, parts, gather).catch((error: unknown) => {
      // An update that is answered with 500 comes again.
      if (!response.headersSent) answer(response, 500);
      parts.onUnusable(error);
    });
  });
  server.requestTimeout = REQUEST_MS;
  server.headersTimeout = REQUEST_MS;
  return server;
}
