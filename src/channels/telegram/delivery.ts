/**
 * Delivery: each conversation in order, different ones side by side. A message is marked before the next one of its
 * conversation goes out, so a crash repeats at most the one in flight.
 */
import { anyFailureOf } from './failure.ts';
import type { Failure } from './failure.ts';
import { delayMs, rest } from './patience.ts';
import type { DeliveryMark, Journal, Outgoing, Timing } from './ports.ts';
import type { SendParts } from './send.ts';
import { deliver, retire } from './send.ts';
import { chatOf } from './update.ts';

export interface DeliveryParts extends SendParts {
  journal: Journal;
  timing: Timing;
  signal: AbortSignal;
  /** The store cannot be used: the program has to end. */
  onUnusable: (error: unknown) => void;
  /** The last waiting message of a conversation is out. */
  onQuiet: (conversation: string) => void;
}

export interface Delivery {
  /** There may be something to deliver in this conversation. */
  wake(conversation: string): void;
  /** Resolves once nothing is in flight; new chains are no longer begun after the signal. */
  idle(): Promise<void>;
  inFlight(): number;
}

/**
 * Calls in flight at the same time, over all conversations: what a crash may repeat at most. The platform takes about
 * thirty messages a second of a bot, which a dozen calls of a tenth of a second each more than fill.
 */
const SIDE_BY_SIDE = 12;

/** Lets a number of calls through at a time, the others in their order. */
function gateOf(width: number): <T>(call: () => Promise<T>) => Promise<T> {
  const waiting: (() => void)[] = [];
  let open = width;
  return async (call) => {
    if (open > 0) open -= 1;
    else await new Promise<void>((resolve) => waiting.push(resolve));
    try {
      return await call();
    } finally {
      const next = waiting.shift();
      if (next === undefined) open += 1;
      else next();
    }
  };
}

interface Marks {
  /** Resolves once the mark is in the store. */
  put(mark: DeliveryMark | undefined, retired?: readonly number[]): Promise<void>;
}

/** Gathers the marks of one moment into one transaction. */
function marksOf({ post, onUnusable }: DeliveryParts): Marks {
  let marks: DeliveryMark[] = [];
  let retired: number[] = [];
  let written: Promise<void> | undefined;
  const write = (): void => {
    const [nowMarks, nowRetired] = [marks, retired];
    marks = [];
    retired = [];
    written = undefined;
    try {
      post.settle(nowMarks, nowRetired);
    } catch (error) {
      onUnusable(error);
    }
  };
  return {
    put: (mark, gone = []) => {
      if (mark !== undefined) marks.push(mark);
      retired.push(...gone);
      written ??= new Promise((resolve) => {
        setImmediate(() => {
          write();
          resolve();
        });
      });
      return written;
    },
  };
}

/** A message that can never be delivered is noted, so that it does not hold up those behind it. */
function givenUp(
  entry: Outgoing,
  failure: Extract<Failure, { kind: 'refused' | 'unauthorised' }>,
): DeliveryMark {
  const why = failure.kind === 'refused' ? `${failure.code}` : failure.kind;
  return { id: entry.id, partsSent: entry.partsSent, done: true, failure: why };
}

/** What is done about a failed delivery: how long to wait before the next try, or undefined to go on with the next. */
async function settleFailure(
  entry: Outgoing,
  failure: Failure,
  failures: number,
  marks: Marks,
  { post, journal, timing }: DeliveryParts,
): Promise<number | undefined> {
  if (failure.kind === 'blocked') {
    journal.event('blocked');
    post.unreachable(entry.conversation, !chatOf(entry.conversation).isGroup);
    return undefined;
  }
  if (failure.kind === 'refused') {
    // The description quotes the platform's own words about the call, never the text of the message.
    journal.event('refused', { message: entry.id, code: failure.code });
    await marks.put(givenUp(entry, failure));
    return undefined;
  }
  journal.event('delivery-failed', { ...failure });
  return delayMs(failure, failures, Math.random(), timing);
}

/** Delivers what waits in one conversation, then takes the buttons off questions no longer open. */
async function chain(
  conversation: string,
  marks: Marks,
  gate: ReturnType<typeof gateOf>,
  parts: DeliveryParts,
): Promise<void> {
  const { post, journal, signal } = parts;
  const send = (entry: Outgoing): Promise<DeliveryMark> => gate(() => deliver(entry, parts));
  let failures = 0;
  for (
    let entry = post.next(conversation);
    entry !== undefined && !signal.aborted;
    entry = post.next(conversation)
  ) {
    try {
      const mark = await send(entry);
      await marks.put(mark);
      failures = 0;
      journal.event('delivered');
    } catch (error) {
      const delay = await settleFailure(entry, anyFailureOf(error), failures, marks, parts);
      failures = delay === undefined ? 0 : failures + 1;
      if (delay !== undefined) await rest(delay, signal);
    }
  }
  if (!signal.aborted) parts.onQuiet(conversation);
  for (const stale of post.staleKeyboards(conversation)) {
    if (signal.aborted) return;
    // Buttons that could not be taken off now are taken off with the next message.
    const isOff = await gate(() => retire(stale, parts)).then(
      () => true,
      () => false,
    );
    if (isOff) await marks.put(undefined, [stale.id]);
  }
}

/** Starts delivering. */
export function startDelivery(parts: DeliveryParts): Delivery {
  const marks = marksOf(parts);
  const gate = gateOf(SIDE_BY_SIDE);
  const running = new Map<string, Promise<void>>();
  const again = new Set<string>();
  const run = async (conversation: string): Promise<void> => {
    try {
      await chain(conversation, marks, gate, parts);
    } catch (error) {
      parts.onUnusable(error);
    }
    running.delete(conversation);
    if (again.delete(conversation)) wake(conversation);
  };
  const wake = (conversation: string): void => {
    if (parts.signal.aborted) return;
    if (running.has(conversation)) again.add(conversation);
    else running.set(conversation, run(conversation));
  };
  for (const conversation of parts.post.pending()) wake(conversation);
  return {
    wake,
    inFlight: () => running.size,
    idle: async () => {
      while (running.size > 0) await Promise.all(running.values());
    },
  };
}
