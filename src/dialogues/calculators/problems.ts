/** What is said of a text that could not be taken as it stands. */
import type { Say, Text } from '../say.ts';
import { info, text } from '../say.ts';
import { amountText, rounded, unitsText } from './amount-words.ts';
import type { AmountField } from './fields.ts';
import { rangeIn } from './fields.ts';
import type { Problem } from './place.ts';
import type { Unit } from './units.ts';

function rangeFacts(field: AmountField, unit: Unit): Record<string, Text> {
  const [least, most] = rangeIn(field, unit);
  return { least: amountText(rounded(least), unit), most: amountText(rounded(most), unit) };
}

function problemText(problem: Problem): Text {
  switch (problem.kind) {
    case 'no-number':
      return text('calculators:problem.no-number');
    case 'strange':
      return text('calculators:problem.strange', { word: problem.word });
    case 'left-over':
      return text('calculators:problem.left-over', { value: problem.value });
    case 'wrong-unit':
      return text('calculators:problem.wrong-unit', {
        given: text(`calculators:unit.${problem.unit}`),
        units: unitsText(problem.units),
      });
    case 'out-of-range':
      return text('calculators:problem.out-of-range', {
        value: amountText(problem.value, problem.unit),
        ...rangeFacts(problem.field, problem.unit),
      });
  }
}

/** The message for a problem; the question with its example follows. */
export function problemSay(problem: Problem): Say {
  return info('bad-value', problemText(problem));
}
