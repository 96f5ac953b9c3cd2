import type { Asked } from '../../dialogues/event.ts';
import { couldMean } from './spelling.ts';

const set = (words: string): ReadonlySet<string> => new Set(words.trim().split(/\s+/u));

/** Words that an acknowledgement may be made of, and nothing else may be in it. */
const ASSENT =
  set(`ok okay k understood done ready sure thing alright agreed yes yep yeah yup roger copy fine right gotcha good clear
  cool accept accepted confirmed continue proceed great perfect absolutely of course got it that this all everything so just now
  did i ive we have has had been will do understand see get makes sense go ahead off out unplugged zero closed open switched turned
  shut locked tagged released relieved the a my its is are s pump power breaker cleaner robot cord plug lid valve pressure gauge at to
  and both already then set thanks thank you please noted careful be im am
  entendido entiendo entendi listo lista vale hecho si claro dale perfecto acuerdo enterado comprendido bueno bien correcto sale va
  seguro segura adelante continuar sigamos confirmado okey ya esta estan quedo quede lo la hice hicimos apague apagada apagado apagamos
  desconecte desconectado desconectada desenchufe desenchufado cerrada cerrado de todo todos el los las bomba robot corriente y muy
  gracias he hemos cero`);

/** "Go on" goes ahead; "the pump is on" does not. */
const BEFORE_ON = set('go carry move');

/** A message that begins so asks. */
const ASKS = set('is are am do does can could should shall may must es puedo debo tengo');

/** Shorter words are taken as they are spelt: "not" is no "now". */
const LEAST_TO_MISSPELL = 5;

function isAssent(words: readonly string[], at: number): boolean {
  const word = words[at] ?? '';
  if (word === 'on') return BEFORE_ON.has(words[at - 1] ?? '');
  if (ASSENT.has(word)) return true;
  return word.length >= LEAST_TO_MISSPELL && [...ASSENT].some((known) => couldMean(word, known));
}

/** Does the question wait for a caution to be acknowledged? */
export function asksForConsent({ options }: Asked): boolean {
  return options.some(({ id }) => id === 'understood');
}

/** Whether a message does nothing but acknowledge: no question, no refusal, no word of anything else. */
export function isBareConsent(words: readonly string[]): boolean {
  return !ASKS.has(words[0] ?? '') && words.every((_, at) => isAssent(words, at));
}

/** Does the question wait for how a repair went? */
export function asksForResult({ options }: Asked): boolean {
  return ['worked', 'not-yet'].every((wanted) => options.some(({ id }) => id === wanted));
}

/** Words that tell that a repair was done or heard of, not that it helped. */
const DONE = set(
  'ok okay k done finished ready alright understood all set got it did i hecho listo lista vale ya termine',
);

/** Words beside which "better" or "running" tell of no cure. */
const DOUBTS = set('but not out still almost little bit until if when pero aun todavia casi sin cuando');

/** Whether a message leaves open how a repair went: it was done, or it is better but. */
export function leavesResultOpen(words: readonly string[], option: string | undefined): boolean {
  if (words.every((word) => DONE.has(word))) return true;
  return option === 'worked' && words.some((word) => DOUBTS.has(word));
}
