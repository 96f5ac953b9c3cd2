import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { OpenStore } from './fixtures.ts';
import { A_MOMENT, allRows, freshStore, incoming, poolWithCase, received, turnOf } from './fixtures.ts';

let open: OpenStore;
beforeEach(() => {
  open = freshStore();
});
afterEach(() => open.store.close());

describe('committing a turn', () => {
  it('should write state, record and messages together', () => {
    const { store } = open;
    const done = store.commit(turnOf(received(store, 'ana', '1'), 0, poolWithCase('ana')));
    expect(done).toBe(true);
    const loaded = store.load('talk-ana', 'ana');
    expect(loaded).toMatchObject({ version: 1, locale: 'es', role: 'technician' });
    expect(loaded.pools[0]?.cases[0]?.events).toHaveLength(3);
    expect(store.undelivered('talk-ana').map(({ message }) => message.text)).toEqual(['answer to 1']);
    expect(store.waiting(50)).toEqual([]);
  });

  it('should write nothing where the conversation moved since it was loaded', () => {
    const { store, database } = open;
    store.commit(turnOf(received(store, 'ana', '1'), 0, poolWithCase('ana')));
    const late = received(store, 'ana', '2');
    const before = allRows(database);
    const change = { do: 'create-pool', pool: 'another', name: 'Another' } as const;
    expect(store.commit(turnOf(late, 0, [change]))).toBe(false);
    expect(allRows(database)).toEqual(before);
    expect(store.waiting(50).map(({ key }) => key)).toEqual(['2']);
  });

  it('should change nothing for an entry that was handled before', () => {
    const { store, database } = open;
    const entry = received(store, 'ana', '1');
    store.commit(turnOf(entry, 0));
    const before = allRows(database);
    store.commit(turnOf(entry, 1, poolWithCase('ana')));
    expect(allRows(database)).toEqual(before);
  });

  it('should write nothing of a turn that fails half way', () => {
    const { store, database } = open;
    const entry = received(store, 'ana', '1');
    const before = allRows(database);
    const [first, second] = poolWithCase('ana').slice(1);
    const twice = [first!, second!, first!];
    expect(() => store.commit(turnOf(entry, 0, twice))).toThrow();
    expect(allRows(database)).toEqual(before);
  });
});

describe('receiving updates', () => {
  it('should change nothing where an update comes a second time', () => {
    const { store, database } = open;
    received(store, 'ana', '1');
    const before = allRows(database);
    store.receive([{ ...incoming('ana', '1'), body: { kind: 'text', text: 'other words' } }], A_MOMENT + 5);
    expect(allRows(database)).toEqual(before);
  });

  it('should not bring back an update that was handled', () => {
    const { store, database } = open;
    store.commit(turnOf(received(store, 'ana', '1'), 0));
    const before = allRows(database);
    store.receive([incoming('ana', '1')], A_MOMENT + 5);
    expect(store.waiting(50)).toEqual([]);
    expect(allRows(database)).toEqual(before);
  });

  it('should take the same key from another channel as another update', () => {
    const { store } = open;
    store.receive([incoming('ana', '1'), { ...incoming('ana', '1'), channel: 'elsewhere' }], A_MOMENT);
    expect(store.waiting(50)).toHaveLength(2);
  });

  it('should hand out the oldest first, at most as many as asked for', () => {
    const { store } = open;
    store.receive(
      ['1', '2', '3'].map((key) => incoming('ana', key)),
      A_MOMENT,
    );
    expect(store.waiting(2).map(({ key }) => key)).toEqual(['1', '2']);
  });

  it('should set an update aside once, with what is said about it', () => {
    const { store } = open;
    const entry = received(store, 'ana', '1');
    const messages = [{ kind: 'error', id: 'internal', text: 'sorry' } as const];
    store.setAside(entry, messages, A_MOMENT);
    store.setAside(entry, messages, A_MOMENT);
    expect(store.waiting(50)).toEqual([]);
    expect(store.undelivered('talk-ana')).toHaveLength(1);
  });
});

describe('taking back', () => {
  it('should keep the rows of what was taken back, marked with when', () => {
    const { store, database } = open;
    store.commit(turnOf(received(store, 'ana', '1'), 0, poolWithCase('ana')));
    const change = { do: 'withdraw-events', pool: 'pool-ana', case: 'case-ana', keep: 1 } as const;
    store.commit(turnOf(received(store, 'ana', '2'), 1, [change]));
    const events = store.load('talk-ana', 'ana').pools[0]?.cases[0]?.events;
    expect(events?.map((event) => 'check' in event && event.check)).toEqual(['water-level']);
    const rows = database.prepare('SELECT withdrawn_at FROM consult_event ORDER BY id').pluck().all();
    expect(rows).toEqual([null, A_MOMENT, A_MOMENT]);
  });

  it('should count only what still stands when more is taken back', () => {
    const { store } = open;
    const [pool, oneCase] = ['pool-ana', 'case-ana'];
    store.commit(turnOf(received(store, 'ana', '1'), 0, poolWithCase('ana')));
    const back = (keep: number) => ({ do: 'withdraw-events', pool, case: oneCase, keep }) as const;
    const event = { kind: 'answer', check: 'wall-brush', outcome: 'clean', at: A_MOMENT } as const;
    const add = { do: 'add-event', pool, case: oneCase, event } as const;
    store.commit(turnOf(received(store, 'ana', '2'), 1, [back(2), add, back(2)]));
    const events = store.load('talk-ana', 'ana').pools[0]?.cases[0]?.events;
    expect(events?.map((one) => 'check' in one && one.check)).toEqual(['water-level', 'return-flow']);
  });

  it('should keep every value a part of the equipment ever had', () => {
    const { store, database } = open;
    store.commit(turnOf(received(store, 'ana', '1'), 0, poolWithCase('ana')));
    const change = { do: 'equip', pool: 'pool-ana', key: 'cleaner', value: 'robotic' } as const;
    store.commit(turnOf(received(store, 'ana', '2'), 1, [change]));
    expect(store.load('talk-ana', 'ana').pools[0]?.equipment).toEqual({ cleaner: 'robotic' });
    expect(database.prepare('SELECT value FROM equipment ORDER BY id').pluck().all()).toEqual([
      'suction',
      'robotic',
    ]);
  });
});

describe('delivering', () => {
  it('should hand out what is not delivered, oldest first, until it is marked', () => {
    const { store } = open;
    store.commit(turnOf(received(store, 'ana', '1'), 0));
    store.commit(turnOf(received(store, 'ana', '2'), 1));
    const [first, second] = store.undelivered('talk-ana');
    expect([first?.message.text, second?.message.text]).toEqual(['answer to 1', 'answer to 2']);
    store.delivered(first!.id, A_MOMENT);
    expect(store.undelivered('talk-ana').map(({ id }) => id)).toEqual([second!.id]);
  });
});
