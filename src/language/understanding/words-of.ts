/** A break that no phrase may cross. */
export const STOP = '.';
/** A softer break: phrases may cross it, a negation mostly not. */
export const PAUSE = ',';

const CONTRACTIONS: Readonly<Record<string, string>> = {
  cannot: 'can not',
  cant: 'can not',
  wont: 'will not',
  aint: 'is not',
  im: 'i am',
  its: 'it is',
  hes: 'he is',
  shes: 'she is',
  theres: 'there is',
  thats: 'that is',
  whats: 'what is',
  theyre: 'they are',
  ive: 'i have',
  ur: 'your',
  u: 'you',
  gonna: 'going to',
  dunno: 'do not know',
  porq: 'por que',
  xq: 'por que',
  pq: 'por que',
  porque: 'por que',
  porfa: 'por favor',
  porfavor: 'por favor',
  q: 'que',
};

const BARE_NEGATIVE = /^(do|does|did|is|are|was|were|have|has|had|would|could|should)nt$/u;

function spelledOut(word: string): string {
  const joined = word.replaceAll("'", '');
  const known = Object.hasOwn(CONTRACTIONS, joined) ? CONTRACTIONS[joined] : undefined;
  if (known !== undefined) return known;
  const negative = BARE_NEGATIVE.exec(joined);
  if (negative?.[1] !== undefined) return `${negative[1]} not`;
  return word
    .replace(/'re$/u, ' are')
    .replace(/'ve$/u, ' have')
    .replace(/'ll$/u, ' will')
    .replace(/'d$/u, ' would')
    .replace(/'m$/u, ' am')
    .replace(/'s$/u, ' s')
    .replaceAll("'", '');
}

/** The words of a folded text, contractions spelled out, with `STOP` and `PAUSE` where the punctuation breaks it. */
export function wordsOf(folded: string): string[] {
  const marked = folded
    .replace(/\.{2,}/gu, ' , ')
    .replace(/[!?;]+|\.(?=\s|$)/gu, ' . ')
    .replace(/,(?!\d)|[:()]/gu, ' , ');
  const words: string[] = [];
  for (const piece of marked.split(/[^\p{L}\p{N}',.%/-]+|-(?!\d)|\/(?!\d)/u)) {
    if (piece === '') continue;
    if (piece === STOP || piece === PAUSE) words.push(piece);
    else
      words.push(
        ...spelledOut(piece.replace(/^['.]+|[.']+$/gu, ''))
          .split(' ')
          .filter((word) => word !== ''),
      );
  }
  return words;
}

/** Is this token a word, and not a mark of punctuation? */
export function isWord(token: string): boolean {
  return token !== STOP && token !== PAUSE;
}
