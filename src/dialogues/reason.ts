/** Why a step comes next, in words. */
import type { Reason } from '../engine/explain.ts';
import type { Text } from './say.ts';
import { text } from './say.ts';

/** One short sentence. */
export function reasonText({ key, ...facts }: Reason): Text {
  return text(`dialogue:reason.${key}`, facts);
}
