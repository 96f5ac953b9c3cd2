/** A company with its people, and an owner whose case ends with a visit. */
import type { Message } from '../../src/dialogues/message.ts';
import type { Crowd } from '../driver/crowd.ts';
import { startCrowd } from '../driver/crowd.ts';

const TABLE = [
  'reference,name,address,language,cleaner,connection,pump,filter,clean-filter-pressure',
  'A-1,Garden of Ada,12 Invented Way,es,suction,skimmer,single-speed,sand,13 psi',
  'A-2,Garden of Bo,,en,suction,skimmer,single-speed,sand,14 psi',
].join('\n');

export const CODE = '4711#';
export const GROUP = 'yard';

export interface Company {
  crowd: Crowd;
  company: string;
}

/** A company with a desk, two technicians and two owners, one of whom speaks Spanish; with a staff chat or without. */
export function someCompany(staffChat: boolean): Company {
  const crowd = startCrowd('en');
  const company = crowd.company('Blue Heron Pools', 'ann');
  crowd.sendFile('ann', TABLE);
  crowd.choose('ann', 'yes');
  if (staffChat) crowd.say('ann', '/staff', GROUP);
  crowd.store.companies.set(company, { key: 'phone', value: '555 0100' });
  crowd.join('dee', company, 'dispatcher');
  crowd.join('tess', company, 'technician');
  crowd.join('tom', company, 'technician');
  crowd.join('eva', company, 'owner', crowd.poolCalled('Garden of Ada'));
  crowd.join('bob', company, 'owner', crowd.poolCalled('Garden of Bo'));
  crowd.say('eva', '/language');
  crowd.choose('eva', 'es');
  return { crowd, company };
}

const LEFT_OUT = ['understood', 'unsure', 'cannot', 'skip'];

/** Answers a question with whatever says least. */
export function leaveOut(crowd: Crowd, owner: string, open: Message | undefined): Message[] {
  const option = LEFT_OUT.find((id) => open?.options?.some((one) => one.id === id));
  if (option === undefined) throw new Error(`Nothing to answer to "${open?.text ?? ''}"`);
  return crowd.choose(owner, option);
}

/** The owner cannot look at anything: the case ends with a visit, and whether it is wanted is asked. */
export function untilVisit(crowd: Crowd, owner: string): Message[] {
  crowd.choose(owner, 'not-moving');
  let heard = crowd.say(owner, '/repeat');
  for (let turn = 0; turn < 80; turn += 1) {
    const open = heard.at(-1);
    if (open?.id === 'visit-wanted' || heard.some(({ outcome }) => outcome === 'visit')) return heard;
    heard = leaveOut(crowd, owner, open);
  }
  throw new Error('The case did not end');
}

/** An owner's case ends with a visit, which is asked for with all its particulars; returns its id. */
export function visitOf(crowd: Crowd, owner = 'eva'): string {
  untilVisit(crowd, owner);
  for (const option of ['yes', 'mornings']) crowd.choose(owner, option);
  crowd.say(owner, 'The dog is friendly');
  crowd.say(owner, CODE);
  return lastVisit(crowd);
}

/** The visit that was asked for last. */
export function lastVisit({ database }: Crowd): string {
  const row = database
    .prepare<[], { id: string }>('SELECT id FROM visit ORDER BY opened_at DESC, rowid DESC LIMIT 1')
    .get();
  if (row === undefined) throw new Error('No visit was asked for');
  return row.id;
}

/** The state of a visit as it is stored. */
export function stateOf({ database }: Crowd, visit: string): string {
  return (
    database.prepare<[string], { state: string }>('SELECT state FROM visit WHERE id = ?').get(visit)?.state ??
    ''
  );
}

/** Everything that a conversation got since a point of the run. */
export function gotBy({ got }: Crowd, conversation: string, since = 0): Message[] {
  return got
    .slice(since)
    .flatMap((one) => (one.conversation === `test:${conversation}` ? [one.message] : []));
}
