/** Updates that wait for the bot: handed out again and again until a later offset confirms them. */
export interface QueuedUpdate {
  update_id: number;
  [content: string]: unknown;
}

export interface UpdateQueue {
  add(content: Record<string, unknown>): number;
  /** Updates from an offset on; those before it are confirmed and gone. Waits for one up to `timeoutMs`. */
  get(offset: number | undefined, limit: number, timeoutMs: number): Promise<QueuedUpdate[]>;
  waiting(): number;
  /** Takes the oldest without confirming it, as a webhook delivery does. */
  first(): QueuedUpdate | undefined;
  confirm(id: number): void;
  onAdd: (() => void) | undefined;
  /** Hands out only the first so many; undefined for all. */
  limitTo: number | undefined;
}

const FIRST_ID = 500_000;

/** An empty queue. */
export function newQueue(): UpdateQueue {
  let updates: QueuedUpdate[] = [];
  let nextId = FIRST_ID;
  let wakers: (() => void)[] = [];
  const wake = (): void => {
    const now = wakers;
    wakers = [];
    for (const waker of now) waker();
  };
  const confirm = (id: number): void => {
    if ((updates[0]?.update_id ?? Infinity) <= id)
      updates = updates.filter(({ update_id }) => update_id > id);
  };
  const queue: UpdateQueue = {
    onAdd: undefined,
    limitTo: undefined,
    add: (content) => {
      const id = nextId++;
      updates.push({ update_id: id, ...content });
      wake();
      queue.onAdd?.();
      return id;
    },
    get: async (offset, limit, timeoutMs) => {
      if (offset !== undefined) confirm(offset - 1);
      const visible = (): QueuedUpdate[] =>
        updates.filter(({ update_id }) => update_id < FIRST_ID + (queue.limitTo ?? Infinity)).slice(0, limit);
      if (visible().length === 0 && timeoutMs > 0)
        await new Promise<void>((resolve) => {
          const timer = setTimeout(resolve, timeoutMs);
          wakers.push(() => {
            clearTimeout(timer);
            resolve();
          });
        });
      return visible();
    },
    waiting: () => updates.length,
    first: () => updates[0],
    confirm,
  };
  return queue;
}
