/** The health address, on loopback only: is it alive, and what are its figures. */
import type { Server } from 'node:http';
import { createServer } from 'node:http';
import type { Figures, Queues } from './figures.ts';
import { metricsText } from './figures.ts';

export interface HealthParts {
  figures: Figures;
  queues: () => Queues;
  now: () => number;
  /** Polls are expected: silence for too long is illness. Not so with a webhook, where silence is a quiet day. */
  polls: boolean;
}

/** A poll ends at least every 45 s; two missed ones are an illness. */
const LONGEST_SILENCE_MS = 120_000;

function moment(at: number): string | null {
  return at === 0 ? null : new Date(at).toISOString();
}

function healthOf({ figures, queues, now, polls }: HealthParts): { isWell: boolean; facts: object } {
  const since = now() - Math.max(figures.lastPollAt, figures.startedAt);
  const isWell = !polls || since < LONGEST_SILENCE_MS;
  const { lastPollAt, lastDeliveryAt } = figures;
  const status = isWell ? 'ok' : 'no-poll';
  return {
    isWell,
    facts: { status, ...queues(), lastPoll: moment(lastPollAt), lastDelivery: moment(lastDeliveryAt) },
  };
}

/** Serves `/health` and `/metrics` on 127.0.0.1. Rejects where the port is taken. */
export function serveHealth(port: number, parts: HealthParts): Promise<Server> {
  const server = createServer((request, response) => {
    if (request.url === '/metrics') {
      response.writeHead(200, { 'content-type': 'text/plain; version=0.0.4' });
      response.end(metricsText(parts.figures, parts.queues()));
      return;
    }
    const { isWell, facts } = healthOf(parts);
    const status = request.url === '/health' ? (isWell ? 200 : 503) : 404;
    response.writeHead(status, { 'content-type': 'application/json' });
    response.end(status === 404 ? '{}' : `${JSON.stringify(facts)}\n`);
  });
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => resolve(server));
  });
}
