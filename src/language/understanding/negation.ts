import type { Found } from './pattern.ts';
import { PAUSE, STOP } from './words-of.ts';

const set = (words: string): ReadonlySet<string> => new Set(words.trim().split(/\s+/u));

const NEGATORS = set(`no not never without nothing nobody none neither nor nope hardly
  sin ni nunca jamas nada nadie ningun ninguna ninguno tampoco`);

/** After these a negator denies something else: "can't stop coughing", "not sure but", "no para de saltar". */
const TURNS_THE_NEGATOR =
  set(`stop stops stopping quit quits only just sure know knowing believe understand idea matter doubt
  kidding joking para paran parar deja dejan dejo dejar solo solamente seguro segura entiendo importa duda broma`);

/** "No, there is smoke" without its comma: the English "no" answers and denies nothing. */
const AFTER_AN_ANSWER = set(`i he she it they there the we my this that a someone somebody mi`);

/** Words across which a denial still reaches: "no sign of any smoke", "no se ve nada de humo". */
const BRIDGES =
  set(`any a an the of even really see seeing saw smell smelling smelled smells feel feeling felt feels hear heard
  hearing notice noticed find found have has had having get gets got getting be been being is are was were am there at all longer
  more much sign signs evidence ever seem seems appear appears to look looks looking like one body anybody anyone or and in from
  coming my i you it kind strange such strong weird visible smoke sparks flames burning fire shock tingle cough
  un una el la los las lo de del se me le les nos ha he han hay huele huelo veo ve siento sentimos tiene tengo tenemos esta estan es
  muy mucho sale salen echa ningun ninguna ninguno nada olor a al rastro senal senales oigo noto parece que o y ni algo alguno
  alguna sentido visto olido hecho dado dio da fue sido haya humo chispas llamas fuego`);

/** A new thought begins here; what was denied before it stays behind. */
const CONTRASTS = set(`but except although though however until pero sino aunque hasta excepto`);

const AFTER_NOT_KNOWING = set(`que si cual como donde por cuando pero , .`);

const LIST_ENDS = set('or nor ni o');

/** "No sé si …": written without its accent it looks like the "no se" of "no se ve". */
function saysNotKnowing(tokens: readonly string[], at: number): boolean {
  if (tokens[at + 1] !== 'se') return false;
  const after = tokens[at + 2];
  return after === undefined || AFTER_NOT_KNOWING.has(after);
}

function isNegator(tokens: readonly string[], at: number): boolean {
  const token = tokens[at];
  if (token === undefined || !NEGATORS.has(token)) return false;
  const next = tokens[at + 1];
  if (next === undefined || next === PAUSE || next === STOP) return false;
  if (TURNS_THE_NEGATOR.has(next) || saysNotKnowing(tokens, at)) return false;
  return !(
    ['no', 'nope', 'nah'].includes(token) &&
    AFTER_AN_ANSWER.has(next) &&
    !(next === 'a' && tokens[at + 2] === undefined)
  );
}

function bridges(tokens: readonly string[], from: number, to: number): boolean {
  for (let at = from; at < to; at += 1) {
    const token = tokens[at] ?? STOP;
    if (token === STOP || CONTRASTS.has(token)) return false;
    if (token === PAUSE) {
      if (!tokens.slice(to).some((later) => LIST_ENDS.has(later))) return false;
    } else if (!BRIDGES.has(token)) return false;
  }
  return true;
}

/** "Smoke? No." and "humo no hay". */
function deniedAfterwards(tokens: readonly string[], last: number): boolean {
  let at = last + 1;
  while (tokens[at] === PAUSE || tokens[at] === STOP) at += 1;
  const token = tokens[at];
  if (token === undefined || !['no', 'nope', 'none', 'ninguno', 'ninguna', 'nada'].includes(token))
    return false;
  const next = tokens[at + 1];
  return next === undefined || next === STOP || next === PAUSE || next === 'hay' || next === 'tengo';
}

/** Does the text deny what the pattern found? Negators that the pattern itself names do not count. */
export function isDenied(tokens: readonly string[], found: Found): boolean {
  const named = new Set(found.positions);
  const last = found.positions.at(-1) ?? 0;
  for (let at = 0; at < last; at += 1) {
    if (named.has(at) || !isNegator(tokens, at)) continue;
    const reached = found.positions.find((position) => position > at);
    if (reached !== undefined && bridges(tokens, at + 1, reached)) return true;
  }
  return deniedAfterwards(tokens, last);
}
