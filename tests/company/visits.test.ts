/** Visits, end to end: asked for, accepted, assigned, visited, closed; who is told what, and who never is. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Crowd } from '../driver/crowd.ts';
import { allRows } from '../store/fixtures.ts';
import type { Company } from './visit-crowd.ts';
import { CODE, gotBy, GROUP, lastVisit, someCompany, stateOf, untilVisit, visitOf } from './visit-crowd.ts';

let at: Company;
let crowd: Crowd;

function texts(conversation: string, since = 0): string[] {
  return gotBy(crowd, conversation, since).map(({ text }) => text);
}

/** What a conversation got because of this. */
function after(conversation: string, act: () => void): string[] {
  const since = crowd.got.length;
  act();
  return texts(conversation, since);
}

afterEach(() => {
  crowd.close();
});

describe('a company with a staff chat', () => {
  beforeEach(() => {
    at = someCompany(true);
    crowd = at.crowd;
  });

  it('should ask one short thing at a time, and take a skip for each', () => {
    const heard = untilVisit(crowd, 'eva');
    expect(heard.at(-1)?.text).toBe('¿Quiere que venga Blue Heron Pools?');
    for (const id of ['visit-suits', 'visit-gate', 'visit-code']) {
      const [question, ...more] = crowd.choose('eva', id === 'visit-suits' ? 'yes' : 'skip');
      expect(more).toEqual([]);
      expect(question?.id).toBe(id);
      expect(question?.text.length).toBeLessThan(120);
    }
    crowd.say('eva', 'saltar');
    const row = crowd.database.prepare('SELECT state, suits, gate_notes FROM visit').get();
    expect(row).toEqual({ state: 'new', suits: '', gate_notes: '' });
    expect(allRows(crowd.database).gate_code).toEqual([]);
  });

  it('should open nothing where no visit is wanted, and say how the company is reached', () => {
    untilVisit(crowd, 'eva');
    const [no] = crowd.choose('eva', 'no');
    expect(no?.text).toContain('555 0100');
    expect(allRows(crowd.database).visit).toEqual([]);
  });

  it('should send the brief to the staff chat, in its language, with what can be done', () => {
    const since = crowd.got.length;
    const visit = visitOf(crowd);
    const [brief, ...more] = gotBy(crowd, GROUP, since);
    expect(more).toEqual([]);
    expect(brief?.text).toContain('VISIT at Garden of Ada (A-1): not accepted yet.');
    expect(brief?.text).toContain('Where: 12 Invented Way');
    expect(brief?.text).toContain('Suits: Mornings');
    expect(brief?.text).toContain('At the gate: The dog is friendly');
    expect(brief?.stands).toBe(true);
    expect(brief?.options?.map(({ id }) => id)).toEqual(
      ['accept', 'assign', 'schedule']
        .map((act) => `${act}-visit/${visit}`)
        .concat(`ask-owner/${visit}`, `close-visit/${visit}`),
    );
  });

  it('should tell the owner of every change in Spanish, and keep each with who and when', () => {
    const visit = visitOf(crowd);
    const accepted = after('eva', () => crowd.choose('dee', `accept-visit/${visit}`, GROUP));
    const assigned = after('eva', () => {
      crowd.choose('dee', `assign-visit/${visit}`, GROUP);
      crowd.choose('dee', 'test:tess', GROUP);
    });
    const scheduled = after('eva', () => {
      crowd.choose('dee', `schedule-visit/${visit}`, GROUP);
      crowd.choose('dee', '2030-06-02', GROUP);
    });
    const there = after('eva', () => crowd.choose('tess', `set-out/${visit}`));
    expect([accepted, assigned, scheduled, there]).toEqual([
      ['Blue Heron Pools aceptó su visita. El día se lo dirán después.'],
      ['Blue Heron Pools le envía a Called tess.'],
      ['Blue Heron Pools va a su casa el 2 jun 2030.'],
      ['En camino hacia su casa: Called tess, de Blue Heron Pools.'],
    ]);
    const kept = crowd.database
      .prepare('SELECT who, from_state, to_state, technician FROM visit_change ORDER BY id')
      .all();
    expect(kept).toEqual([
      { who: 'test:eva', from_state: null, to_state: 'new', technician: null },
      { who: 'test:dee', from_state: 'new', to_state: 'accepted', technician: null },
      { who: 'test:dee', from_state: 'accepted', to_state: 'assigned', technician: 'test:tess' },
      { who: 'test:dee', from_state: 'assigned', to_state: 'assigned', technician: null },
      { who: 'test:tess', from_state: 'assigned', to_state: 'on-the-way', technician: null },
    ]);
  });

  it('should tell the technician of what is theirs, and the former one that it no longer is', () => {
    const visit = visitOf(crowd);
    const give = (person: string) => () => {
      crowd.choose('dee', `assign-visit/${visit}`, GROUP);
      crowd.choose('dee', `test:${person}`, GROUP);
    };
    expect(after('tess', give('tess'))).toEqual(['Garden of Ada (A-1) is yours to visit, no day yet.']);
    const since = crowd.got.length;
    give('tom')();
    expect(texts('tom', since)).toEqual(['Garden of Ada (A-1) is yours to visit, no day yet.']);
    expect(texts('tess', since)).toEqual(['Garden of Ada (A-1) is no longer yours to visit.']);
  });

  it('should let a technician take a brief, and say kindly what it is to whoever comes too late', () => {
    const visit = visitOf(crowd);
    crowd.choose('tess', `assign-visit/${visit}`, GROUP);
    expect(stateOf(crowd, visit)).toBe('assigned');
    const before = allRows(crowd.database);
    for (const [person, act] of [
      ['tom', 'assign-visit'],
      ['tom', 'accept-visit'],
      ['dee', 'accept-visit'],
      ['tess', 'accept-visit'],
    ] as const) {
      const [say, ...more] = crowd.choose(person, `${act}/${visit}`, GROUP);
      expect(more).toEqual([]);
      expect(say?.text).toBe('Nothing changed. Garden of Ada (A-1) is by now: assigned to Called tess.');
    }
    const now = allRows(crowd.database);
    expect(now.visit).toEqual(before.visit);
    expect(now.visit_change).toEqual(before.visit_change);
    const [refused] = crowd.choose('tom', `close-visit/${visit}`, GROUP);
    expect(refused?.text).toContain('for somebody else');
  });

  it('should let the owner cancel, once asked, and stop everybody', () => {
    const visit = visitOf(crowd);
    crowd.choose('dee', `assign-visit/${visit}`, GROUP);
    crowd.choose('dee', 'test:tess', GROUP);
    crowd.choose('eva', `cancel-visit/${visit}`);
    crowd.choose('eva', 'no');
    expect(stateOf(crowd, visit)).toBe('assigned');
    crowd.choose('eva', `cancel-visit/${visit}`);
    const since = crowd.got.length;
    crowd.choose('eva', 'yes');
    expect(stateOf(crowd, visit)).toBe('cancelled');
    expect(texts('tess', since)).toEqual(['Garden of Ada (A-1): the visit was cancelled. Do not go.']);
    expect(texts(GROUP, since)).toEqual(['Garden of Ada (A-1): cancelled.']);
    expect(crowd.choose('dee', `schedule-visit/${visit}`, GROUP)[0]?.text).toContain('Nothing changed.');
    expect(allRows(crowd.database).gate_code).toEqual([]);
  });

  it('should end with the owner leaving, with nothing kept of the code', () => {
    const visit = visitOf(crowd);
    crowd.say('eva', '/leave');
    crowd.choose('eva', 'yes');
    expect(stateOf(crowd, visit)).toBe('cancelled');
    expect(allRows(crowd.database).gate_code).toEqual([]);
    expect(crowd.say('dee', '/queue')[0]?.text).toBe('No visit is waiting at Blue Heron Pools.');
  });

  it('should keep a code that is a short number, and not take it for a button', () => {
    untilVisit(crowd, 'eva');
    for (const option of ['yes', 'soon', 'no']) crowd.choose('eva', option);
    crowd.say('eva', '2');
    expect(allRows(crowd.database).gate_code).toEqual([{ visit: lastVisit(crowd), code: '2' }]);
  });

  it('should not let one owner touch the visit of another', () => {
    const visit = visitOf(crowd);
    for (const act of ['cancel-visit', 'answer-company', 'accept-visit', 'open-visit', 'close-visit'])
      expect(crowd.choose('bob', `${act}/${visit}`)[0]?.id).toBe('not-allowed');
    expect(stateOf(crowd, visit)).toBe('new');
  });

  it('should pass a question to the owner and the answer back', () => {
    const visit = visitOf(crowd);
    crowd.choose('dee', `ask-owner/${visit}`, GROUP);
    expect(after('eva', () => crowd.say('dee', 'Is the pump loud?', GROUP))).toEqual([
      'Blue Heron Pools pregunta: Is the pump loud?',
    ]);
    crowd.choose('eva', `answer-company/${visit}`);
    expect(after(GROUP, () => crowd.say('eva', 'Sí, mucho'))).toEqual([
      'The owner of Garden of Ada (A-1) says: Sí, mucho',
    ]);
    expect(stateOf(crowd, visit)).toBe('new');
  });

  it('should list the queue, oldest first, and open each by a button', () => {
    const first = visitOf(crowd, 'bob');
    crowd.wait(3 * 3_600_000);
    const second = visitOf(crowd, 'eva');
    crowd.choose('dee', `accept-visit/${second}`, GROUP);
    const [list] = crowd.say('dee', '/queue');
    expect(list?.options?.map(({ id }) => id)).toEqual([first, second, 'done']);
    expect(list?.text).toContain('1. Garden of Bo (A-2): not accepted yet, asked for 3 hours ago');
    expect(list?.text).toContain('2. Garden of Ada (A-1): accepted');
    expect(crowd.choose('dee', second)[0]?.text).toContain('VISIT at Garden of Ada (A-1): accepted.');
  });

  it('should show the gate code to the assigned technician and to nobody else, and keep it nowhere after', () => {
    const visit = visitOf(crowd);
    const people = ['ann', 'dee', 'tess', 'tom', 'eva', 'bob'];
    const everybodyLooks = (): void => {
      for (const person of people)
        for (const words of ['/queue', '/today', '/truck', '/history', '/pools']) {
          crowd.say(person, words);
          crowd.choose(person, visit);
          crowd.choose(person, 'done');
        }
      for (const person of people)
        for (const group of [undefined, GROUP]) crowd.choose(person, `open-visit/${visit}`, group);
    };
    everybodyLooks();
    expect(crowd.got.filter(({ message }) => JSON.stringify(message).includes(CODE))).toEqual([]);
    crowd.choose('dee', `assign-visit/${visit}`, GROUP);
    crowd.choose('dee', 'test:tess', GROUP);
    everybodyLooks();
    const told = crowd.got.filter(({ message }) => JSON.stringify(message).includes(CODE));
    expect(told.length).toBeGreaterThan(0);
    expect(new Set(told.map(({ conversation }) => conversation))).toEqual(new Set(['test:tess']));
    crowd.choose('dee', `assign-visit/${visit}`, GROUP);
    crowd.choose('dee', 'test:tom', GROUP);
    const since = crowd.got.length;
    everybodyLooks();
    const later = crowd.got.slice(since).filter(({ message }) => JSON.stringify(message).includes(CODE));
    expect(new Set(later.map(({ conversation }) => conversation))).toEqual(new Set(['test:tom']));
    const rows = allRows(crowd.database);
    expect(rows.gate_code).toEqual([{ visit, code: CODE }]);
    const elsewhere = Object.entries(rows).filter(
      ([table, all]) => table !== 'gate_code' && JSON.stringify(all).includes(CODE),
    );
    expect(elsewhere.map(([table]) => table)).toEqual([]);
    crowd.say('tom', 'closed: lid O-ring, new ring, 25 minutes');
    expect(stateOf(crowd, visit)).toBe('closed');
    expect(JSON.stringify(allRows(crowd.database))).not.toContain(CODE);
  });

  it('should order the day of a technician, and say what to load for it', () => {
    const [first, second] = [visitOf(crowd, 'bob'), visitOf(crowd, 'eva')];
    for (const visit of [second, first]) {
      crowd.choose('dee', `assign-visit/${visit}`, GROUP);
      crowd.choose('dee', 'test:tess', GROUP);
      crowd.choose('dee', `schedule-visit/${visit}`, GROUP);
      crowd.choose('dee', '2030-06-01', GROUP);
    }
    const [list] = crowd.say('tess', '/today');
    expect(list?.options?.map(({ id }) => id)).toEqual([second, first, 'done']);
    expect(crowd.say('tom', '/today')[0]?.text).toBe('You have no visits to do today.');
    const [truck] = crowd.say('tess', '/truck');
    const lines = truck?.text.split('\n') ?? [];
    expect(lines[0]).toContain('2 visits');
    expect(lines[1]).toMatch(/about 0\.\d times, for .* at .*Garden of (Ada|Bo) \(A-\d\) \d+ %/);
    expect(lines.at(-1)).toContain('both gauges');
  });

  it('should tell an owner whose pool has a visit coming, and open no second one', () => {
    visitOf(crowd);
    const heard = untilVisit(crowd, 'eva');
    expect(heard.at(-1)?.text).toContain('Ya hay una visita pedida para esta piscina: sin aceptar.');
    expect(allRows(crowd.database).visit).toHaveLength(1);
  });
});

describe('a company without a staff chat', () => {
  beforeEach(() => {
    at = someCompany(false);
    crowd = at.crowd;
  });

  it('should write to each dispatcher and administrator', () => {
    const since = crowd.got.length;
    visitOf(crowd);
    for (const person of ['ann', 'dee']) expect(texts(person, since)[0]).toContain('VISIT at Garden of Ada');
    expect(texts('tess', since)).toEqual([]);
  });

  it('should keep the brief in the queue and name the phone where nobody can be reached', () => {
    for (const person of ['ann', 'dee']) crowd.store.unreachable(`test:${person}`, true, crowd.now());
    untilVisit(crowd, 'eva');
    for (const option of ['yes', 'soon', 'no']) crowd.choose('eva', option);
    const [told] = crowd.choose('eva', 'no');
    expect(told?.text).toContain('555 0100');
    const visit = lastVisit(crowd);
    expect(crowd.say('tess', '/queue')[0]?.options?.map(({ id }) => id)).toContain(visit);
  });
});
