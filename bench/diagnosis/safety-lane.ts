/** One process's share of the watched cases: steps, lane and lanes as arguments, the count as a message. */
import { watched } from './safety.ts';

const [steps = 0, lane = 0, lanes = 1] = process.argv.slice(2).map(Number);
process.send?.(watched(steps, lane, lanes));
