/**
 * Who may do what, in one place. Every command, every question and every standing button has its row; one without a
 * row does not compile. What is done within a company is done with a permit, and only this file gives permits.
 */
import type { CompanyRole, Membership } from './company/company.ts';
import type { Permit } from './company/permit.ts';
import type { Flow } from './conversation.ts';
import type { ActId, CommandId, Understood } from './event.ts';
import type { Facts } from './record.ts';

/** Anybody, about what is their own; or those who have one of these roles in the company it is about. */
type Who = 'anybody' | readonly CompanyRole[];

const STAFF: readonly CompanyRole[] = ['technician', 'dispatcher', 'administrator'];
const OFFICE: readonly CompanyRole[] = ['dispatcher', 'administrator'];
const ADMINISTRATORS: readonly CompanyRole[] = ['administrator'];
const OWNERS: readonly CompanyRole[] = ['owner'];

export const COMMAND_ACCESS: Readonly<Record<CommandId, Who>> = {
  start: 'anybody',
  help: 'anybody',
  why: 'anybody',
  back: 'anybody',
  skip: 'anybody',
  unsure: 'anybody',
  repeat: 'anybody',
  stop: 'anybody',
  new: 'anybody',
  pool: 'anybody',
  pools: 'anybody',
  readings: 'anybody',
  estimates: 'anybody',
  history: 'anybody',
  language: 'anybody',
  privacy: 'anybody',
  erase: 'anybody',
  flow: 'anybody',
  volume: 'anybody',
  turnover: 'anybody',
  headloss: 'anybody',
  speed: 'anybody',
  de: 'anybody',
  backwash: 'anybody',
  soak: 'anybody',
  invite: OFFICE,
  invitations: OFFICE,
  people: ADMINISTRATORS,
  company: ADMINISTRATORS,
  staff: ADMINISTRATORS,
  import: OFFICE,
  export: OFFICE,
  send: OFFICE,
  find: STAFF,
  leave: [...OWNERS, ...STAFF],
  zone: 'anybody',
  report: OFFICE,
  queue: STAFF,
  today: STAFF,
  truck: STAFF,
  close: STAFF,
  voice: 'anybody',
};

export const FLOW_ACCESS: Readonly<Record<Flow['at'], Who>> = {
  language: 'anybody',
  role: 'anybody',
  complaint: 'anybody',
  profile: 'anybody',
  'edit-pool': 'anybody',
  'edit-equipment': 'anybody',
  consult: 'anybody',
  'still-open': 'anybody',
  'baseline-offer': 'anybody',
  gauge: 'anybody',
  doubt: 'anybody',
  confirm: 'anybody',
  pools: 'anybody',
  'pool-name': 'anybody',
  erase: 'anybody',
  calculate: 'anybody',
  join: 'anybody',
  'which-company': 'anybody',
  invite: OFFICE,
  'find-pool': STAFF,
  invitations: OFFICE,
  people: ADMINISTRATORS,
  'company-settings': ADMINISTRATORS,
  'company-setting': ADMINISTRATORS,
  'own-name': 'anybody',
  'remove-person': ADMINISTRATORS,
  import: OFFICE,
  leave: [...OWNERS, ...STAFF],
  zone: 'anybody',
  report: OFFICE,
  'visit-wanted': [...OWNERS, ...STAFF],
  'visit-list': STAFF,
  'assign-visit': OFFICE,
  'schedule-visit': STAFF,
  'ask-owner': STAFF,
  'answer-company': OWNERS,
  'cancel-visit': [...OWNERS, ...OFFICE],
  'close-visit': STAFF,
};

export const ACT_ACCESS: Readonly<Record<ActId, Who>> = {
  'revoke-invitation': OFFICE,
  'reminder-off': 'anybody',
  'runs-well': 'anybody',
  'runs-ill': 'anybody',
  'accept-visit': STAFF,
  'assign-visit': STAFF,
  'schedule-visit': STAFF,
  'ask-owner': STAFF,
  'answer-company': OWNERS,
  'open-visit': STAFF,
  'set-out': STAFF,
  'close-visit': STAFF,
  'cancel-visit': [...OWNERS, ...OFFICE],
};

/** Something a person does. */
export type Action = { command: CommandId } | { flow: Flow['at'] } | { act: ActId } | { file: true };

/** Who may do it. */
export function whoMay(action: Action): Who {
  if ('command' in action) return COMMAND_ACCESS[action.command];
  if ('flow' in action) return FLOW_ACCESS[action.flow];
  // Sending a file means importing it.
  return 'act' in action ? ACT_ACCESS[action.act] : COMMAND_ACCESS.import;
}

function permitOf({ company, role }: Membership): Permit {
  return { company, role } as Permit;
}

/** The permits that a person has for something done within a company, one a company; none for a stranger. */
export function permits(action: Action, { memberships }: Pick<Facts, 'memberships'>): Permit[] {
  const who = whoMay(action);
  if (who === 'anybody') return [];
  const fitting = memberships.filter(({ role }) => who.includes(role));
  const first = fitting.filter(
    ({ company }, index) => fitting.findIndex((one) => one.company.id === company.id) === index,
  );
  return first.map(permitOf);
}

/** The permit for one company, undefined where the person has none. */
export function permit(
  action: Action,
  company: string,
  facts: Pick<Facts, 'memberships'>,
): Permit | undefined {
  return permits(action, facts).find((one) => one.company.id === company);
}

/** Whether the person may do it at all, in whichever company. */
export function mayDo(action: Action, facts: Pick<Facts, 'memberships'>): boolean {
  return whoMay(action) === 'anybody' || permits(action, facts).length > 0;
}

/** Whether the question that is open may still be answered: its company may have let the person go meanwhile. */
export function mayAnswer(flow: Flow, facts: Pick<Facts, 'memberships'>): boolean {
  // What is read back is an answer to the question beneath.
  if (flow.at === 'confirm') return mayAnswer(flow.then, facts);
  const action = { flow: flow.at };
  if (whoMay(action) === 'anybody') return true;
  return 'company' in flow && permit(action, flow.company, facts) !== undefined;
}

/** What an event asks to do beside answering what is open. */
export function actionOf(event: Understood): Action | undefined {
  if (event.kind === 'command') return { command: event.id };
  if (event.kind === 'act') return { act: event.act };
  if (event.kind === 'closing') return { command: 'close' };
  return event.kind === 'file' ? { file: true } : undefined;
}
