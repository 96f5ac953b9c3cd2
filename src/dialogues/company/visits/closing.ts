/** Closing a visit: the cause, the repair with its parts, the minutes and new readings, by a few taps or in one line. */
import { suspectsOf } from '../../../engine/belief.ts';
import type { Suspicion } from '../../../engine/belief.ts';
import type { SuspectId } from '../../../knowledge/ids.ts';
import { SOMETHING_ELSE, SUSPECT_IDS } from '../../../knowledge/ids.ts';
import { permits } from '../../access.ts';
import { caseOf } from '../../case-view.ts';
import type { Context, Flow, Move } from '../../conversation.ts';
import type { SaidClosing, Understood } from '../../event.ts';
import type { Option, Say, Text } from '../../say.ts';
import { info, question, text } from '../../say.ts';
import { faultName } from '../../words.ts';
import { saidAndBack } from '../words.ts';
import { closed } from './closed.ts';
import type { Found } from './deeds.ts';
import { caseBehind, foundIn, outcomeFor, unchanged } from './deeds.ts';
import type { ClosingSoFar } from './flow.ts';
import { listed } from './listed.ts';
import type { Visit } from './visit.ts';
import { poolText } from './words.ts';

type ClosingFlow = Extract<Flow, { at: 'close-visit' }>;

/** Causes shown first, then so many a page of the whole list. */
const FIRST_CAUSES = 4;
const A_PAGE = 12;
/** Of several causes that the words fit, one is taken as meant where it is so many times likelier than the next. */
const CLEARLY_LIKELIER = 2;

export const NOTHING_SAID: SaidClosing = { causes: [], readings: [], clean: false };

const MINUTES = [15, 30, 45, 60, 90] as const;
const LONGEST_MINUTES = 24 * 60;

/** The beginning of closing a visit. */
export function closingFlow({ company, id }: Visit, then: Flow): ClosingFlow {
  return { at: 'close-visit', company, visit: id, sofar: { ...NOTHING_SAID }, then };
}

/** The suspects of the visit's case, the likeliest first; every fault where the case is gone. */
export function suspectsAt(found: Found, { facts }: Context): Suspicion[] {
  const behind = caseBehind(found, facts);
  if (behind !== undefined) return suspectsOf(caseOf(behind.pool, behind.record));
  return SUSPECT_IDS.map((fault) => ({ fault, p: 0 }));
}

/** The cause that the words mean: the only one they fit, or the one among them that is clearly the likeliest. */
function causeMeant(causes: readonly SuspectId[], suspects: readonly Suspicion[]): SuspectId | undefined {
  const [only] = causes;
  if (causes.length <= 1) return only;
  const [first, second] = suspects.filter(({ fault }) => causes.includes(fault));
  if (first === undefined) return undefined;
  return second === undefined || first.p >= CLEARLY_LIKELIER * second.p ? first.fault : undefined;
}

/** What was said so far and what was said now. */
function together(sofar: ClosingSoFar, said: SaidClosing, suspects: readonly Suspicion[]): ClosingSoFar {
  const { causes, readings, clean, ...rest } = said;
  const cause = causeMeant(causes, suspects);
  return {
    ...sofar,
    ...rest,
    ...(cause === undefined ? {} : { cause }),
    causes: causes.length > 0 ? causes : sofar.causes,
    readings: [...sofar.readings, ...readings],
    clean: sofar.clean || clean,
  };
}

type Missing = 'cause' | 'repair' | 'minutes';

function missing({ cause, isRepaired, minutes }: ClosingSoFar): Missing | undefined {
  if (cause === undefined) return 'cause';
  if (isRepaired === undefined) return 'repair';
  return minutes === undefined ? 'minutes' : undefined;
}

function causeOption(fault: SuspectId): Option {
  return { id: fault, label: text('visits:closing.cause', { fault: faultName(fault) }) };
}

const OTHER: Option = { id: 'other-cause', label: text('visits:closing.other-cause') };
const MORE: Option = { id: 'more-causes', label: text('visits:closing.more') };

function causeOptions({ sofar, page }: ClosingFlow, suspects: readonly Suspicion[]): Option[] {
  const ranked = suspects.map(({ fault }) => fault);
  const meant = ranked.filter((fault) => sofar.causes.includes(fault));
  const first = [...meant, ...ranked.filter((fault) => !meant.includes(fault))];
  if (page === undefined) return [...first.slice(0, FIRST_CAUSES).map(causeOption), OTHER];
  const from = FIRST_CAUSES + page * A_PAGE;
  const more = from + A_PAGE < first.length ? [MORE] : [];
  return [...first.slice(from, from + A_PAGE).map(causeOption), ...more];
}

const REPAIR_OPTIONS: readonly Option[] = [
  { id: 'usual-part', label: text('visits:closing.usual-part') },
  { id: 'no-part', label: text('visits:closing.no-part') },
  { id: 'not-repaired', label: text('visits:closing.not-repaired') },
];

function minuteOptions(): Option[] {
  return MINUTES.map((minutes) => ({
    id: String(minutes),
    label: text('visits:closing.minutes', { minutes }),
  }));
}

function optionsFor(asked: Missing, flow: ClosingFlow, suspects: readonly Suspicion[]): readonly Option[] {
  if (asked === 'cause') return causeOptions(flow, suspects);
  return asked === 'repair' ? REPAIR_OPTIONS : minuteOptions();
}

function askText(asked: Missing, { sofar: { cause } }: ClosingFlow, visit: Visit): Text {
  const facts = { pool: poolText(visit), bring: text(`faults:${cause ?? SOMETHING_ELSE}.bring`) };
  return text(`visits:closing.ask-${asked}`, facts);
}

/** The first thing that is still missing. */
export function askClosing(flow: ClosingFlow, context: Context): Say[] {
  const found = foundIn(flow, context);
  if (found === undefined) return [];
  const asked = missing(flow.sofar) ?? 'minutes';
  const options = optionsFor(asked, flow, suspectsAt(found, context));
  const say = question(`closing-${asked}`, askText(asked, flow, found.visit), options);
  return [{ ...say, expects: 'closing' }];
}

/** Asks on, or closes the visit once nothing is missing. */
function goOn(flow: ClosingFlow, sofar: ClosingSoFar, found: Found, context: Context): Move {
  const outcome = outcomeFor(found.visit, 'close', context.facts);
  if ('not' in outcome) return saidAndBack(flow.then, unchanged(found.visit, outcome));
  const { cause, isRepaired, minutes } = sofar;
  if (cause === undefined || isRepaired === undefined || minutes === undefined)
    return { flow: { ...flow, sofar } };
  const said = { ...sofar, cause, isRepaired, minutes };
  const [suspect] = suspectsAt(found, context);
  return { flow: flow.then, ...closed(found, outcome.to, said, suspect?.fault, context), quiet: true };
}

/** What a button adds to what was said; undefined where it is none of those shown. */
function tapped(option: string, asked: Missing, shown: readonly Option[]): Partial<ClosingSoFar> | undefined {
  if (!shown.some(({ id }) => id === option)) return undefined;
  if (asked === 'minutes') return { minutes: Number(option) };
  if (asked === 'repair')
    return option === 'not-repaired'
      ? { isRepaired: false }
      : { isRepaired: true, parts: option === 'usual-part' ? 'usual' : '' };
  const cause = SUSPECT_IDS.find((fault) => fault === option);
  return cause === undefined ? undefined : { cause };
}

function turnedPage({ page }: ClosingFlow, option: string): number | undefined {
  if (option === OTHER.id) return 0;
  return option === MORE.id ? (page ?? 0) + 1 : undefined;
}

function pressed(option: string, flow: ClosingFlow, found: Found, context: Context): Move | undefined {
  const asked = missing(flow.sofar) ?? 'minutes';
  const page = turnedPage(flow, option);
  if (page !== undefined && asked === 'cause') return { flow: { ...flow, page } };
  const more = tapped(option, asked, optionsFor(asked, flow, suspectsAt(found, context)));
  return more && goOn(flow, { ...flow.sofar, ...more }, found, context);
}

/** Words that are nothing else are the part, where the repair is asked for. */
function asParts(words: string, { sofar }: ClosingFlow): SaidClosing | undefined {
  const parts = words.trim().slice(0, 100);
  if (missing(sofar) !== 'repair' || parts === '') return undefined;
  return { ...NOTHING_SAID, isRepaired: true, parts };
}

/** Takes a button, or whatever was said of it. */
export function answerClosing(flow: ClosingFlow, event: Understood, context: Context): Move | undefined {
  const found = foundIn(flow, context);
  if (found === undefined) return { flow: flow.then };
  if (event.kind === 'answer') return pressed(event.option, flow, found, context);
  const said =
    event.kind === 'closing' ? event.said : event.kind === 'unclear' ? asParts(event.text, flow) : undefined;
  if (said === undefined) return undefined;
  if ((said.minutes ?? 0) > LONGEST_MINUTES) return undefined;
  return goOn(flow, together(flow.sofar, said, suspectsAt(found, context)), found, context);
}

/** Closes a visit with what was said of it. */
function closeWith(found: Found, said: SaidClosing, then: Flow, context: Context): Move {
  const flow = closingFlow(found.visit, then);
  return goOn(flow, together(flow.sofar, said, suspectsAt(found, context)), found, context);
}

/** The visits of the person that could be closed now; the one they are at comes alone. */
function candidates({ facts }: Context): Found[] {
  const own = permits({ command: 'close' }, facts).flatMap((given) =>
    listed({ list: 'close' }, given, { facts }).map((visit): Found => ({ given, visit })),
  );
  const there = own.filter(({ visit }) => visit.state === 'on-the-way');
  return there.length > 0 ? there : own;
}

/** A visit told to be done, with or without a word of what was found: the only one it can be, or the question which. */
export function closeOne(said: SaidClosing, then: Flow, context: Context): Move {
  const found = candidates(context);
  const [only] = found;
  if (only === undefined) return saidAndBack(then, info('nothing-to-close', text('visits:closing.none')));
  if (found.length === 1) return closeWith(only, said, then, context);
  return { flow: { at: 'visit-list', list: 'close', company: only.visit.company, said, then } };
}

/** Goes on closing the visit chosen from a list. */
export function closeChosen(found: Found, said: SaidClosing | undefined, then: Flow, context: Context): Move {
  return closeWith(found, said ?? NOTHING_SAID, then, context);
}
