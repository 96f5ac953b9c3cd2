/** Which visits a list holds. */
import type { Context, Flow } from '../../conversation.ts';
import type { Permit } from '../permit.ts';
import { today } from './day.ts';
import type { Visit } from './visit.ts';

type ListFlow = Extract<Flow, { at: 'visit-list' }>;

/** Longer lists are cut; the oldest come first and nothing is lost by it. */
const SHOWN = 20;

/** The visits of a list as they stand. */
export function listed(
  { list }: Pick<ListFlow, 'list'>,
  given: Permit,
  { facts }: Pick<Context, 'facts'>,
): readonly Visit[] {
  const { visits } = facts.office;
  return list === 'queue'
    ? visits.open(given, SHOWN)
    : visits.ownDay(given, today(facts.now, given.company)).slice(0, SHOWN);
}
