/** What is counted while the bot runs, for the health address. */
import type { Journal } from '../channels/telegram/ports.ts';

export interface Figures {
  startedAt: number;
  updates: number;
  turns: number;
  turnMs: number;
  failedTurns: number;
  slowed: number;
  events: Map<string, number>;
  lastPollAt: number;
  lastDeliveryAt: number;
}

/** Figures that nothing has been counted in yet. */
export function newFigures(now: number): Figures {
  return {
    startedAt: now,
    updates: 0,
    turns: 0,
    turnMs: 0,
    failedTurns: 0,
    slowed: 0,
    events: new Map(),
    lastPollAt: 0,
    lastDeliveryAt: 0,
  };
}

/** Counts what happens to the channel. */
export function counted(figures: Figures, now: () => number): Journal['event'] {
  return (kind) => {
    figures.events.set(kind, (figures.events.get(kind) ?? 0) + 1);
    if (kind === 'poll') figures.lastPollAt = now();
    if (kind === 'delivered') figures.lastDeliveryAt = now();
  };
}

/** The state of the queues at this moment. */
export interface Queues {
  inbox: number;
  outbox: number;
  inFlight: number;
}

type Kind = 'counter' | 'gauge';

function line(name: string, kind: Kind, about: string, value: number): string {
  return `# HELP padside_${name} ${about}\n# TYPE padside_${name} ${kind}\npadside_${name} ${value}`;
}

/** The figures in the text format that Prometheus reads. Times in seconds. */
export function metricsText(figures: Figures, queues: Queues): string {
  const events = [...figures.events].map(([kind, n]) => `padside_channel_events_total{kind="${kind}"} ${n}`);
  return [
    line('updates_total', 'counter', 'Updates taken into the inbox', figures.updates),
    line('turns_total', 'counter', 'Turns handled', figures.turns),
    line('turn_seconds_total', 'counter', 'Time spent in turns', figures.turnMs / 1000),
    line('turns_failed_total', 'counter', 'Turns that ended in an error of ours', figures.failedTurns),
    line('slowed_total', 'counter', 'Updates that had to wait their turn', figures.slowed),
    line('inbox_open', 'gauge', 'Updates not handled yet', queues.inbox),
    line('outbox_open', 'gauge', 'Messages not delivered yet', queues.outbox),
    line('deliveries_in_flight', 'gauge', 'Conversations being delivered to', queues.inFlight),
    line('last_poll_seconds', 'gauge', 'When updates were last asked for or came', figures.lastPollAt / 1000),
    line(
      'last_delivery_seconds',
      'gauge',
      'When a message was last delivered',
      figures.lastDeliveryAt / 1000,
    ),
    '# HELP padside_channel_events_total What happened to the channel\n# TYPE padside_channel_events_total counter',
    ...events,
    '',
  ].join('\n');
}
