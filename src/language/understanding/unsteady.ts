import { isDenied } from './negation.ts';
import { findAll, patternOf } from './pattern.ts';
import { UNSTEADY } from './words/readings.ts';

const PATTERNS = UNSTEADY.map((text) => patternOf(text, {}));

/** Does the message say that the needle moves? */
export function isUnsteady(tokens: readonly string[]): boolean {
  return PATTERNS.some((pattern) => findAll(pattern, tokens).some((found) => !isDenied(tokens, found)));
}
