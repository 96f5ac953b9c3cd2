/** How fast one conversation is answered: freely at first, then one message at a time. Nothing is ever dropped. */

export interface Pace {
  /** Messages answered at once before slowing down. */
  burst: number;
  /** Milliseconds between messages once slowed down. */
  everyMs: number;
}

/** A person at a pool sends a handful of messages a minute; an album or a nervous thumb may send twenty at once. */
export const USUAL_PACE: Pace = { burst: 20, everyMs: 1000 };

export interface Slot {
  /** When the message is to be handled, milliseconds since 1970. */
  dueAt: number;
  /** It has to wait. */
  slowed: boolean;
  /** It is the first of its burst that has to wait: the person is told. */
  first: boolean;
}

interface Bucket {
  /** When the bucket is full again; a message moves it on by one interval. */
  fullAt: number;
  /** The person knows that they are slowed; told again only after a pause in which the bucket filled. */
  told: boolean;
}

const MOST_BUCKETS = 10_000;

/** Gives out slots; keeps one time stamp a conversation, and forgets those that are full again. */
export function paceKeeper({ burst, everyMs }: Pace): (conversation: string, now: number) => Slot {
  const buckets = new Map<string, Bucket>();
  const forgetFull = (now: number): void => {
    for (const [key, { fullAt }] of buckets) if (fullAt <= now) buckets.delete(key);
  };
  return (conversation, now) => {
    if (buckets.size > MOST_BUCKETS) forgetFull(now);
    const before = buckets.get(conversation);
    const fullAt = Math.max(before?.fullAt ?? now, now) + everyMs;
    const dueAt = Math.max(now, fullAt - burst * everyMs);
    const slowed = dueAt > now;
    const isTold = before?.told === true && before.fullAt > now;
    buckets.set(conversation, { fullAt, told: isTold || slowed });
    return { dueAt, slowed, first: slowed && !isTold };
  };
}
