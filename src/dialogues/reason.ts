/** Why a step comes next, in words. */
import type { Reason } from '../engine/explain.ts';
import type { Text } from './say.ts';
import { text } from './say.ts';
import { faultName } from './words.ts';

/** One short sentence. */
export function reasonText({ key, ...facts }: Reason): Text {
  const named = 'fault' in facts ? { ...facts, fault: faultName(facts.fault) } : facts;
  return text(`dialogue:reason.${key}`, named);
}
