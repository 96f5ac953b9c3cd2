/**
 * A small, strict Bot API server over real HTTP. What the public documentation limits is limited, what the bot should
 * not call fails loudly, and calls fail on demand.
 */
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
import { newChats } from './chats.ts';
import type { Fault, FaultPlan } from './faults.ts';
import { BadRequest, checked, isMethod } from './limits.ts';
import type { Method } from './limits.ts';
import type { World } from './methods.ts';
import { HANDLERS } from './methods.ts';
import { parametersOf } from './multipart.ts';
import { newQueue } from './queue.ts';
import { deliverByWebhook } from './webhook-delivery.ts';

export const TOKEN = '123456:TEST-token-of-nobody-at-all-0001';

export interface FakeBotApi extends World {
  apiRoot: string;
  token: string;
  faults: FaultPlan | undefined;
  /** Calls by method, those that failed on demand included. */
  calls: Map<string, number>;
  /** Calls that the platform would never take: a test fails where there are any. */
  violations: string[];
  /** Called after each message that is sent. */
  onSend: ((chat: number) => void) | undefined;
  /** Where updates are posted instead of the public address of the webhook, which does not exist here. */
  webhookTarget: string | undefined;
  close(): Promise<void>;
}

const DESCRIPTIONS: Record<number, string> = {
  401: 'Unauthorized',
  403: 'Forbidden: bot was blocked by the user',
  404: 'Not Found',
  409: 'Conflict: terminated by other getUpdates request',
};

function reply(response: ServerResponse, code: number, body: object): void {
  response.writeHead(code, { 'content-type': 'application/json' });
  response.end(JSON.stringify(body));
}

function refuse(response: ServerResponse, code: number, description: string, parameters?: object): void {
  reply(response, code, { ok: false, error_code: code, description, ...(parameters && { parameters }) });
}

async function bodyOf(request: IncomingMessage): Promise<Buffer> {
  const chunks: Buffer[] = [];
  for await (const chunk of request as AsyncIterable<Buffer>) chunks.push(chunk);
  return Buffer.concat(chunks);
}

/** Does to the call what the fault says; true where that settles it. */
async function failed(fault: Fault | undefined, response: ServerResponse): Promise<boolean> {
  switch (fault?.kind) {
    case 'flood':
      refuse(response, 429, `Too Many Requests: retry after ${fault.seconds}`, {
        retry_after: fault.seconds,
      });
      return true;
    case 'status':
      refuse(response, fault.code, DESCRIPTIONS[fault.code] ?? 'Internal Server Error');
      return true;
    case 'reset-before':
      response.destroy();
      return true;
    case 'stall':
      return true;
    case 'slow':
      await pause(fault.ms);
      return false;
    case 'held':
      await fault.until;
      return false;
    case 'reset-after':
    case undefined:
      return false;
  }
}

function download(path: string, response: ServerResponse, { files }: World): void {
  const bytes = files.get(path.replace(/^photos\//, ''));
  response.writeHead(bytes === undefined ? 404 : 200);
  response.end(bytes);
}

async function perform(
  method: Method,
  parameters: Record<string, unknown>,
  fake: FakeBotApi,
): Promise<unknown> {
  const given = checked(method, parameters);
  const run = HANDLERS[method] as (given: unknown, world: World) => unknown;
  const result = await run(given, fake);
  if (method === 'sendMessage') fake.onSend?.(Number(parameters.chat_id));
  return result;
}

async function handle(request: IncomingMessage, response: ServerResponse, fake: FakeBotApi): Promise<void> {
  const [, file, token = '', rest = ''] = /^(\/file)?\/bot([^/]+)\/(.+)$/.exec(request.url ?? '') ?? [];
  const body = await bodyOf(request);
  if (token !== fake.token) {
    refuse(response, 401, 'Unauthorized');
    return;
  }
  if (file !== undefined) {
    download(rest, response, fake);
    return;
  }
  fake.calls.set(rest, (fake.calls.get(rest) ?? 0) + 1);
  if (!isMethod(rest)) {
    fake.violations.push(`unknown method ${rest}`);
    refuse(response, 404, `Not Found: method ${rest} not found`);
    return;
  }
  const parameters = parametersOf(body, request.headers['content-type'] ?? '');
  const chat = parameters.chat_id === undefined ? undefined : Number(parameters.chat_id);
  const fault = fake.faults?.(rest, chat);
  if (await failed(fault, response)) return;
  if (rest === 'getUpdates' && fake.webhook !== undefined)
    refuse(response, 409, "Conflict: can't use getUpdates method while webhook is active");
  else await answered(rest, parameters, fault, response, fake);
}

/** Does what the call asks and answers it, unless the connection is to break now. */
async function answered(
  method: Method,
  parameters: Record<string, unknown>,
  fault: Fault | undefined,
  response: ServerResponse,
  fake: FakeBotApi,
): Promise<void> {
  try {
    const result = await perform(method, parameters, fake);
    if (fault?.kind === 'reset-after') response.destroy();
    else reply(response, 200, { ok: true, result });
  } catch (error) {
    if (!(error instanceof BadRequest)) throw error;
    const isExpected = /not modified|query is too old/.test(error.message);
    if (!isExpected) fake.violations.push(error.message);
    refuse(response, 400, `Bad Request: ${error.message}`);
  }
}

/** Starts a server on a free port of loopback. */
export async function startFakeBotApi(): Promise<FakeBotApi> {
  const server: Server = createServer((request, response) => {
    handle(request, response, fake).catch((error: unknown) => {
      fake.violations.push(`the fake server failed: ${String(error)}`);
      response.destroy();
    });
  });
  server.keepAliveTimeout = 60_000;
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const stopWebhook = new AbortController();
  const fake: FakeBotApi = {
    apiRoot: `http://127.0.0.1:${port}`,
    token: TOKEN,
    chats: newChats(),
    queue: newQueue(),
    notices: new Map(),
    webhook: undefined,
    commands: [],
    typing: [],
    files: new Map(),
    faults: undefined,
    calls: new Map(),
    violations: [],
    onSend: undefined,
    webhookTarget: undefined,
    close: async () => {
      stopWebhook.abort();
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
  deliverByWebhook(fake, stopWebhook.signal);
  return fake;
}
