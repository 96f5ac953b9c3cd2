/** What is wrong: the start of a case. */
import type { ComplaintId } from '../knowledge/ids.ts';
import { COMPLAINT_IDS } from '../knowledge/ids.ts';
import type { Equipment, EquipmentKey } from '../knowledge/schema.ts';
import { complaintById, fits, TRADE } from '../knowledge/trade.ts';
import { equipmentFor } from './case-view.ts';
import { begin } from './consult.ts';
import type { Context, Flow, Move } from './conversation.ts';
import { currentPool, poolOrFresh } from './conversation.ts';
import type { Finding, SpokenReading, ToldTogether, ToldTrouble, Understood } from './event.ts';
import { saidByComplaint, urgentWord } from './findings.ts';
import { askable } from './profile.ts';
import { loggedReadings } from './readings.ts';
import type { RecordChange } from './record.ts';
import type { Option, Say } from './say.ts';
import { question, text } from './say.ts';

/** Where a person may tell what is wrong together with all that was read and seen. */
export const TAKES_TROUBLE: ReadonlySet<Flow['at']> = new Set([
  'language',
  'role',
  'complaint',
  'baseline-offer',
]);

/** The question what is wrong, with the complaints that fit the pool; the rarer ones folded. */
export function askComplaint(context: Context): Say[] {
  const equipment: Equipment = currentPool(context)?.equipment ?? {};
  const options = TRADE.complaints
    .filter((complaint) => fits(complaint.when, equipment))
    .map((complaint): Option => {
      const option = { id: complaint.id, label: text(`complaints:${complaint.id}.label`) };
      return complaint.common ? option : { ...option, folded: true };
    });
  return [question('complaint', text('dialogue:complaint.ask'), options)];
}

/**
 * Opens a case for a complaint: first the equipment it turns on, where that is not known. `found`: what was seen
 * already, told with the complaint.
 */
export function complained(id: ComplaintId, context: Context, found: readonly Finding[] = []): Move {
  const { pool, changes } = poolOrFresh(context);
  const asks: EquipmentKey[] = complaintById(id).asks.filter((key) =>
    askable(key, equipmentFor(id, pool.equipment)),
  );
  const set = { pool: pool.id };
  const [first] = asks;
  if (first !== undefined) {
    const says = saidByComplaint(id).flatMap(({ check, outcome }) => urgentWord(check, outcome));
    return { flow: { at: 'profile', asks: [first], asked: 0, complaint: id, found }, changes, says, set };
  }
  return { ...openedCase(id, context, changes, found), set };
}

/** Opens the case itself and goes to its first step. */
export function openedCase(
  complaint: ComplaintId,
  context: Context,
  changes: readonly RecordChange[],
  found: readonly Finding[] = [],
): Move {
  const { pool } = poolOrFresh(context);
  const { role } = context.conversation;
  const id = `${context.facts.freshId}-case`;
  const open: RecordChange = { do: 'open-case', pool: pool.id, case: id, complaint, role };
  const record = { id, complaint, role, openedAt: context.facts.now, events: [] };
  return begin({ pool, record }, [...changes, open], found, context);
}

/** Answers a message where a complaint is waited for. */
export function answerComplaint(event: Understood, context: Context): Move | undefined {
  const said = event.kind === 'complaint' ? event.id : event.kind === 'answer' ? event.option : undefined;
  const id = COMPLAINT_IDS.find((known) => known === said);
  return id && complained(id, context);
}

/** The flow with a complaint at its end that is taken up as soon as the questions before it are answered. */
export function remembering(said: ComplaintId, flow: Flow, found: readonly Finding[] = []): Flow {
  return 'then' in flow
    ? { ...flow, then: remembering(said, flow.then, found) }
    : { at: 'complaint', said, found };
}

/** Notes what was read at once, if anything was, and goes on there. */
function notedOnTheWay(readings: readonly SpokenReading[], then: Flow, context: Context): Move {
  return readings.length === 0 ? { flow: then } : loggedReadings(readings, then, context);
}

/** Takes what is wrong with what was read and seen: the readings at once, the rest when its case is open. */
export function troubled({ complaint, findings, readings }: ToldTrouble, flow: Flow, context: Context): Move {
  return notedOnTheWay(readings, remembering(complaint, flow, findings), context);
}

/** Keeps what was seen, told before the case is open, until it is; readings are noted at once. */
export function seenBefore(
  { findings, readings }: ToldTogether,
  flow: Extract<Flow, { at: 'profile' }>,
  context: Context,
): Move {
  return notedOnTheWay(readings, { ...flow, found: [...(flow.found ?? []), ...findings] }, context);
}
