/** How readings are said in English, as rules of a grammar (JSGF). */
import type { Measured } from '../../dialogues/event.ts';

/** Numbers, as far as gauges go. */
export const NUMBER_RULES: Readonly<Record<string, string>> = {
  digit: 'one | two | three | four | five | six | seven | eight | nine',
  teen: 'ten | eleven | twelve | thirteen | fourteen | fifteen | sixteen | seventeen | eighteen | nineteen',
  'to-nine': 'zero | <digit>',
  'to-thirty': '<to-nine> | <teen> | twenty [<digit>] | thirty',
  'to-sixty': '<to-nine> | <teen> | (twenty | thirty | forty | fifty) [<digit>] | sixty',
  tens: 'ten | twenty | thirty | forty | fifty | sixty | seventy | eighty | ninety',
  hundreds: '<tens> | (one | a | two | three) hundred [[and] (<tens> | <teen> | twenty five | seventy five)]',
  fraction: 'and a half | point <digit>',
  bars: '(zero | one | two | three) point <digit> | one | two | three | one and a half',
};

/** Values with the units that each gauge shows. */
export const VALUE_RULES: Readonly<Record<string, string>> = {
  psi: 'psi | pounds',
  inches: 'inches [of mercury | of vacuum]',
  'turns-a-minute': 'turns [a minute | per minute]',
  'filter-value':
    '<to-sixty> [<fraction>] [<psi>] | <bars> (bar | bars) | half a bar | <hundreds> kilopascals',
  'vacuum-value': '<to-thirty> [<fraction>] [<inches>] | <tens> kilopascals',
  'suction-value': '<to-thirty> [<fraction>] [<inches>] | <tens> kilopascals',
  'wheel-value': '<to-sixty> [<turns-a-minute>]',
  'flow-units': 'gpm | gallons [a minute | per minute]',
  'flow-value': '(<to-sixty> | <hundreds>) <flow-units>',
};

interface Spoken {
  /** Rule of its values. */
  value: string;
  /** How it is named before its value. */
  name: string;
  /** Rule of numbers in a range. */
  number: string;
  /** Units after a range. */
  units: string;
}

export const SPOKEN_READINGS: Readonly<Record<Measured, Spoken>> = {
  'filter-pressure': {
    value: '<filter-value>',
    name: 'filter [pressure] | pressure [gauge]',
    number: '<to-sixty>',
    units: '<psi>',
  },
  'pump-vacuum': { value: '<vacuum-value>', name: '[pump] vacuum', number: '<to-thirty>', units: '<inches>' },
  'cleaner-suction': {
    value: '<suction-value>',
    name: 'cleaner suction | suction at the hose | hose suction',
    number: '<to-thirty>',
    units: '<inches>',
  },
  'wheel-turns': {
    value: '<wheel-value>',
    name: 'wheel [turns] | the wheel turns',
    number: '<to-sixty>',
    units: '<turns-a-minute>',
  },
  flow: {
    value: '<flow-value>',
    name: 'flow',
    number: '<to-sixty>',
    units: '<flow-units>',
  },
};
