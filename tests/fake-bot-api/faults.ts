/** Things that go wrong with a call, on demand. */
export type Fault =
  /** Too many calls; `retry_after` seconds. */
  | { kind: 'flood'; seconds: number }
  | { kind: 'status'; code: 401 | 403 | 404 | 409 | 500 | 502 | 503 }
  /** The connection breaks before the call is done. */
  | { kind: 'reset-before' }
  /** The call is done and the connection breaks before the answer. */
  | { kind: 'reset-after' }
  /** The answer takes this long. */
  | { kind: 'slow'; ms: number }
  /** The call waits for something. */
  | { kind: 'held'; until: Promise<void> }
  /** The answer never comes. */
  | { kind: 'stall' };

/** Decides for each call; undefined lets it through. */
export type FaultPlan = (method: string, chat: number | undefined) => Fault | undefined;

/** A small generator of pseudo-random numbers from 0 up to 1 (mulberry32, public domain), so that a run can be repeated. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

const MIXED: readonly Fault[] = [
  { kind: 'flood', seconds: 1 },
  { kind: 'status', code: 500 },
  { kind: 'status', code: 502 },
  { kind: 'status', code: 409 },
  { kind: 'reset-before' },
  { kind: 'reset-after' },
  { kind: 'slow', ms: 40 },
];

/** A share of all calls fails, in mixed ways. 409 comes with polls only, as it does. */
export function mixedFaults(share: number, random: () => number): FaultPlan {
  return (method) => {
    if (random() >= share) return undefined;
    const fault = MIXED[Math.floor(random() * MIXED.length)];
    const isConflict = fault?.kind === 'status' && fault.code === 409;
    return isConflict && method !== 'getUpdates' ? { kind: 'status', code: 503 } : fault;
  };
}
