/** Numbers as words, and digit by digit, so that "sixteen" is never taken for "sixty". */

interface NumberWords {
  small: readonly string[];
  tens: readonly string[];
  /** "Twenty" and "two". */
  joined(tens: number, ones: number): string;
  /** "A hundred" and what follows it. */
  hundred(count: number, rest: string): string;
  point: string;
  minus: string;
}

const EN_SMALL =
  `zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen
  eighteen nineteen`.split(/\s+/u);
const EN_TENS = 'zero ten twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');
const ES_SMALL =
  `cero uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis diecisiete
  dieciocho diecinueve veinte veintiuno veintidós veintitrés veinticuatro veinticinco veintiséis veintisiete veintiocho
  veintinueve`.split(/\s+/u);
const ES_TENS = 'cero diez veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa'.split(' ');
const ES_HUNDREDS =
  `cero ciento doscientos trescientos cuatrocientos quinientos seiscientos setecientos ochocientos
  novecientos`.split(/\s+/u);

const WORDS: Readonly<Record<'en' | 'es', NumberWords>> = {
  en: {
    small: EN_SMALL,
    tens: EN_TENS,
    joined: (tens, ones) => `${EN_TENS[tens] ?? ''} ${EN_SMALL[ones] ?? ''}`,
    hundred: (count, rest) => `${EN_SMALL[count] ?? ''} hundred${rest === '' ? '' : ` and ${rest}`}`,
    point: 'point',
    minus: 'minus',
  },
  es: {
    small: ES_SMALL,
    tens: ES_TENS,
    joined: (tens, ones) => `${ES_TENS[tens] ?? ''} y ${ES_SMALL[ones] ?? ''}`,
    hundred: (count, rest) =>
      rest === '' && count === 1 ? 'cien' : `${ES_HUNDREDS[count] ?? ''}${rest === '' ? '' : ` ${rest}`}`,
    point: 'punto',
    minus: 'menos',
  },
};

function whole(value: number, words: NumberWords): string {
  const small = words.small[value];
  if (small !== undefined) return small;
  if (value >= 100) {
    const rest = value % 100;
    return words.hundred(Math.floor(value / 100), rest === 0 ? '' : whole(rest, words));
  }
  const [tens, ones] = [Math.floor(value / 10), value % 10];
  return ones === 0 ? (words.tens[tens] ?? '') : words.joined(tens, ones);
}

/** Digits after the point, at most two, without zeros at the end. */
function written(value: number): { before: string; after: string } {
  const [before = '0', after = ''] = Math.abs(value)
    .toFixed(2)
    .replace(/\.?0+$/u, '')
    .split('.');
  return { before, after };
}

const oneByOne = (digits: string, { small }: NumberWords): string =>
  Array.from(digits, (digit) => small[Number(digit)] ?? '').join(' ');

/** A number in words: "one hundred and ten", "twelve point five". From -999 to 999; beyond that, its digits one by one. */
export function numberInWords(value: number, language: 'en' | 'es'): string {
  const words = WORDS[language];
  const { before, after } = written(value);
  const front = Number(before) > 999 ? oneByOne(before, words) : whole(Number(before), words);
  const sign = value < 0 ? `${words.minus} ` : '';
  return `${sign}${front}${after === '' ? '' : ` ${words.point} ${oneByOne(after, words)}`}`;
}

/** A number digit by digit: "one six", "one two point five". Empty where that is no different from the number in words. */
export function digitsApart(value: number, language: 'en' | 'es'): string {
  const words = WORDS[language];
  const { before, after } = written(value);
  if (before.length < 2) return '';
  return `${oneByOne(before, words)}${after === '' ? '' : ` ${words.point} ${oneByOne(after, words)}`}`;
}
