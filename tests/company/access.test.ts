/** The table of access, written down a second time by hand: role × action × own or other company. */
import { describe, expect, it } from 'vitest';
import type { Action } from '../../src/dialogues/access.ts';
import {
  ACT_ACCESS,
  COMMAND_ACCESS,
  FLOW_ACCESS,
  mayAnswer,
  mayDo,
  permit,
  whoMay,
} from '../../src/dialogues/access.ts';
import type { Company, CompanyRole, Membership } from '../../src/dialogues/company/company.ts';
import { COMPANY_ROLES } from '../../src/dialogues/company/company.ts';
import type { Flow } from '../../src/dialogues/conversation.ts';
import type { ActId, CommandId } from '../../src/dialogues/event.ts';
import { ACTS, COMMANDS } from '../../src/dialogues/event.ts';
import { startCrowd } from '../driver/crowd.ts';

/** o owner, t technician, d dispatcher, a administrator; `any` for what is one's own and needs no company. */
const COMMAND_TABLE: Record<CommandId, string> = {
  start: 'any',
  help: 'any',
  why: 'any',
  back: 'any',
  skip: 'any',
  unsure: 'any',
  repeat: 'any',
  stop: 'any',
  new: 'any',
  pool: 'any',
  pools: 'any',
  readings: 'any',
  estimates: 'any',
  history: 'any',
  language: 'any',
  privacy: 'any',
  erase: 'any',
  flow: 'any',
  volume: 'any',
  turnover: 'any',
  headloss: 'any',
  speed: 'any',
  de: 'any',
  backwash: 'any',
  soak: 'any',
  invite: 'da',
  invitations: 'da',
  people: 'a',
  company: 'a',
  staff: 'a',
  import: 'da',
  export: 'da',
  send: 'da',
  find: 'tda',
  leave: 'otda',
  queue: 'tda',
  today: 'tda',
  truck: 'tda',
  close: 'tda',
  voice: 'any',
  zone: 'any',
  report: 'da',
};
const FLOW_TABLE: Record<Flow['at'], string> = {
  language: 'any',
  role: 'any',
  complaint: 'any',
  profile: 'any',
  'edit-pool': 'any',
  'edit-equipment': 'any',
  consult: 'any',
  'still-open': 'any',
  'baseline-offer': 'any',
  gauge: 'any',
  doubt: 'any',
  confirm: 'any',
  pools: 'any',
  'pool-name': 'any',
  erase: 'any',
  calculate: 'any',
  join: 'any',
  'own-name': 'any',
  'which-company': 'any',
  invite: 'da',
  'find-pool': 'tda',
  invitations: 'da',
  people: 'a',
  'remove-person': 'a',
  'company-settings': 'a',
  'company-setting': 'a',
  import: 'da',
  leave: 'otda',
  'visit-wanted': 'otda',
  'visit-list': 'tda',
  'assign-visit': 'da',
  'schedule-visit': 'tda',
  'ask-owner': 'tda',
  'answer-company': 'o',
  'cancel-visit': 'oda',
  'close-visit': 'tda',
  zone: 'any',
  report: 'da',
};
const ACT_TABLE: Record<ActId, string> = {
  'revoke-invitation': 'da',
  'accept-visit': 'tda',
  'assign-visit': 'tda',
  'schedule-visit': 'tda',
  'ask-owner': 'tda',
  'answer-company': 'o',
  'open-visit': 'tda',
  'set-out': 'tda',
  'close-visit': 'tda',
  'cancel-visit': 'oda',
  'reminder-off': 'any',
  'runs-well': 'any',
  'runs-ill': 'any',
};

const company = (id: string): Company => ({
  id,
  name: id,
  locale: 'en',
  phone: '',
  hours: '',
  handOffMinutes: 120,
  acceptWithinMinutes: 120,
  timeZone: 'UTC',
  retentionMonths: 24,
});
const [own, other] = [company('own'), company('other')];
const asOnly = (role: CompanyRole): { memberships: Membership[] } => ({
  memberships: [{ company: own, role, since: 0 }],
});
const STRANGER = { memberships: [] };

const ROWS: { name: string; action: Action; may: string }[] = [
  ...COMMANDS.map((command) => ({ name: `/${command}`, action: { command }, may: COMMAND_TABLE[command] })),
  ...(Object.keys(FLOW_TABLE) as Flow['at'][]).map((flow) => ({
    name: `answering ${flow}`,
    action: { flow },
    may: FLOW_TABLE[flow],
  })),
  ...ACTS.map((act) => ({ name: `button ${act}`, action: { act }, may: ACT_TABLE[act] })),
  { name: 'a file', action: { file: true }, may: 'da' },
];

describe('the table of access', () => {
  it('should have a row for every command, question and standing button, and no other', () => {
    expect(Object.keys(COMMAND_ACCESS).sort()).toEqual([...COMMANDS].sort());
    expect(Object.keys(ACT_ACCESS).sort()).toEqual([...ACTS].sort());
    expect(Object.keys(FLOW_ACCESS).sort()).toEqual(Object.keys(FLOW_TABLE).sort());
    expect(ROWS.length).toBe(COMMANDS.length + Object.keys(FLOW_TABLE).length + ACTS.length + 1);
  });

  describe.each(ROWS)('$name', ({ action, may }) => {
    it.each(COMPANY_ROLES)('for %s of the company, and never in another one', (role) => {
      const facts = asOnly(role);
      const isOpen = may === 'any' || may.includes(role.charAt(0));
      expect(mayDo(action, facts)).toBe(isOpen);
      expect(permit(action, own.id, facts)?.company.id).toBe(may !== 'any' && isOpen ? own.id : undefined);
      expect(permit(action, other.id, facts)).toBeUndefined();
    });

    it('for a stranger', () => {
      expect(mayDo(action, STRANGER)).toBe(may === 'any');
      expect(permit(action, own.id, STRANGER)).toBeUndefined();
    });
  });

  it('should not let anybody answer a question of a company that is not theirs, or that let them go', () => {
    const about = (at: Flow['at'], id: string): Flow =>
      ({ at, company: id, then: { at: 'complaint' } }) as Flow;
    for (const at of Object.keys(FLOW_TABLE) as Flow['at'][]) {
      if (whoMay({ flow: at }) === 'anybody') continue;
      expect([at, mayAnswer(about(at, other.id), asOnly('administrator'))]).toEqual([at, false]);
      expect([at, mayAnswer(about(at, own.id), STRANGER)]).toEqual([at, false]);
      // A technician may not become more than that by a question that was left open.
      const technician = FLOW_TABLE[at].includes('t');
      expect([at, mayAnswer(about(at, own.id), asOnly('technician'))]).toEqual([at, technician]);
    }
  });
});

it('should let what was heard answer nothing that the person may not answer', () => {
  const then = { at: 'company-setting', company: own.id, key: 'name', then: { at: 'complaint' } } as const;
  const heard: Flow = {
    at: 'confirm',
    unconfirmed: { meant: { kind: 'unclear', text: 'x' }, others: [] },
    then,
  } as unknown as Flow;
  expect(mayAnswer(heard, asOnly('administrator'))).toBe(true);
  expect(mayAnswer(heard, asOnly('technician'))).toBe(false);
});

describe('the bot itself', () => {
  it('should turn away exactly those whom the table turns away, command by command', () => {
    for (const role of ['stranger', ...COMPANY_ROLES] as const)
      for (const command of COMMANDS) {
        const crowd = startCrowd('en');
        const id = crowd.company('Blue Heron Pools', 'ann');
        crowd.sendFile('ann', 'reference,name\nA-1,Garden of Ada\n');
        crowd.choose('ann', 'yes');
        if (role !== 'stranger')
          crowd.join('pat', id, role, role === 'owner' ? crowd.poolCalled('Garden of Ada') : undefined);
        const refused = crowd.say('pat', `/${command}`).some((message) => message.id === 'not-allowed');
        const may = COMMAND_TABLE[command];
        const isOpen = may === 'any' || (role !== 'stranger' && may.includes(role.charAt(0)));
        expect([role, command, refused]).toEqual([role, command, !isOpen]);
        crowd.close();
      }
  });

  it('should keep a file of nobody who may not import it', () => {
    const crowd = startCrowd('en');
    const id = crowd.company('Blue Heron Pools', 'ann');
    crowd.join('tom', id, 'technician');
    for (const person of ['tom', 'stranger']) {
      const answer = crowd.sendFile(person, 'reference,name\nA-1,Garden\n');
      expect(answer.map(({ id: said }) => said)).toContain('no-file');
    }
    const kept = crowd.database.prepare<[], { n: number }>('SELECT COUNT(*) AS n FROM upload').get();
    expect(kept?.n).toBe(0);
    crowd.close();
  });
});
