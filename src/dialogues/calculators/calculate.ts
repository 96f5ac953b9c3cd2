/** Asking what a calculator needs, one value after another or all in one line, and answering. */
import type { Flow, Move } from '../conversation.ts';
import type { Understood } from '../event.ts';
import type { Option, Say, Text } from '../say.ts';
import { info, question, text } from '../say.ts';
import { SKIP } from '../words.ts';
import { amountText, unitsText } from './amount-words.ts';
import { amountsIn } from './amounts.ts';
import type { AmountField, Calculator, CalculatorId, ChoiceField, Field, Values } from './fields.ts';
import { fieldsFor, isChoice, isEnough, isRequired, unitsOf } from './fields.ts';
import { placed, slipAt } from './place.ts';
import type { Placed } from './place.ts';
import { problemSay } from './problems.ts';
import { resultOf } from './results.ts';
import { TABLE } from './table.ts';

type CalculateFlow = Extract<Flow, { at: 'calculate' }>;

const LEAVE: Option = { id: 'leave', label: text('calculators:leave') };
const UNDERSTOOD: Option = { id: 'understood', label: text('dialogue:option.understood') };

function calculatorOf(flow: CalculateFlow): Calculator {
  return TABLE[flow.calculator];
}

/** The field that is asked for next; undefined where all was asked. */
function openField(flow: CalculateFlow): Field | undefined {
  return fieldsFor(calculatorOf(flow), flow.values).find(({ id }) => !(id in flow.values));
}

function askCaution(flow: CalculateFlow): Say | undefined {
  const caution = calculatorOf(flow).cautions[flow.heard];
  if (caution === undefined) return undefined;
  const words = [text(`cautions:${caution}.text`)];
  return { kind: 'caution', id: caution, text: words, options: [UNDERSTOOD, LEAVE] };
}

/** A text of the table in the words of the person's language: "32 ft" is "32 pies" in Spanish. */
function inWords(said: string): Text {
  const amount = amountsIn(said).find((each) => each.kind === 'amount');
  if (amount === undefined) throw new Error(`“${said}” is no amount`);
  return amountText(amount.value, amount.unit ?? 'count');
}

/** "For example “45 gpm”. I also take m³/h, L/min." */
function exampleText(field: AmountField, values: Values): Text {
  const others = unitsText(unitsOf(field, values).slice(1));
  const example = inWords(field.example);
  return others.length === 0
    ? text('calculators:example', { example })
    : text('calculators:example-units', { example, others });
}

function usualOption(said: string): Option {
  return { id: said, label: inWords(said) };
}

function askAmount(field: AmountField, flow: CalculateFlow): Say {
  const { calculator, values } = flow;
  const ask = text(`calculators:${calculator}.ask.${field.id}`);
  const skip = isRequired(field, calculatorOf(flow), values) ? [] : [SKIP];
  const options = [...(field.usual ?? []).map(usualOption), ...skip, LEAVE];
  const say = question(`${calculator}-${field.id}`, ask, options);
  return { ...say, text: [ask, exampleText(field, values)], expects: 'amount' };
}

function askChoice({ id, choices }: ChoiceField, { calculator }: CalculateFlow): Say {
  const options = Object.keys(choices).map((choice): Option => ({
    id: choice,
    label: text(`calculators:${calculator}.choice.${id}.${choice}`),
  }));
  return question(`${calculator}-${id}`, text(`calculators:${calculator}.ask.${id}`), [...options, LEAVE]);
}

/** What a calculator is waiting for: a caution to be read, a choice, or an amount. */
export function askCalculate(flow: CalculateFlow): Say[] {
  const caution = askCaution(flow);
  if (caution !== undefined) return [caution];
  const field = openField(flow);
  if (field === undefined) return [];
  return [isChoice(field) ? askChoice(field, flow) : askAmount(field, flow)];
}

/** The next thing to ask; where nothing is left, the answer, and back to where the person was. */
function goOn(flow: CalculateFlow, says: readonly Say[] = []): Move {
  if (askCaution(flow) !== undefined || openField(flow) !== undefined) return { flow, says };
  const answer = info(`calculated-${flow.calculator}`, ...resultOf(flow.calculator, flow.values));
  return { flow: flow.then, says: [...says, answer], quiet: flow.then.at === 'complaint' };
}

/** Leaves out what is not needed for an answer. */
function withoutTheRest(flow: CalculateFlow): CalculateFlow {
  const calculator = calculatorOf(flow);
  if (!isEnough(calculator, flow.values)) return flow;
  const rest = fieldsFor(calculator, flow.values).filter(({ id }) => !(id in flow.values));
  const left = Object.fromEntries(rest.map(({ id }) => [id, null]));
  return withValues(flow, { ...flow.values, ...left });
}

/** The same calculator with other values, and no amounts left waiting. */
function withValues({ calculator, heard, then }: CalculateFlow, values: Values): CalculateFlow {
  return { at: 'calculate', calculator, heard, values, then };
}

/** Takes what was placed. Where all went well in one line, what is optional is left out and the answer comes at once. */
function took(flow: CalculateFlow, line: string, result: Placed, isWhole: boolean): Move {
  const { values, problem, undecided } = result;
  if (undecided === true) return { flow: { ...flow, values, line } };
  const next = withValues(flow, values);
  if (problem !== undefined) return goOn(next, [problemSay(problem)]);
  return goOn(isWhole ? withoutTheRest(next) : next);
}

/** Starts a calculator, with what was said on the same line. The flow given is where it returns to. */
export function calculation(calculator: CalculatorId, line: string, then: Flow): Move {
  const flow: CalculateFlow = { at: 'calculate', calculator, heard: 0, values: {}, then };
  return line === '' ? { flow } : took(flow, line, placed(TABLE[calculator], {}, line), true);
}

/** Back to the value before; out of the calculator at its beginning. */
export function backInCalculation(flow: CalculateFlow): Move {
  const last = fieldsFor(calculatorOf(flow), flow.values).findLast(({ id }) => id in flow.values);
  if (last === undefined) return { flow: flow.then };
  return { flow: withValues(flow, without(flow, last.id)) };
}

/** The values without one, and without those that are asked only because of it. */
function without(flow: CalculateFlow, dropped: string): Values {
  const kept = Object.fromEntries(Object.entries(flow.values).filter(([id]) => id !== dropped));
  const fitting = new Set(fieldsFor(calculatorOf(flow), kept).map(({ id }) => id));
  return Object.fromEntries(Object.entries(kept).filter(([id]) => fitting.has(id)));
}

function skipped(flow: CalculateFlow, field: Field): Move {
  if (isRequired(field, calculatorOf(flow), flow.values))
    return { flow, says: [info('needed', text('calculators:problem.needed'))] };
  return goOn(withValues(flow, { ...flow.values, [field.id]: null }));
}

function tookChoice(flow: CalculateFlow, field: ChoiceField, choice: string): Move {
  const { line } = flow;
  const next = withValues(flow, { ...flow.values, [field.id]: { choice } });
  if (line === undefined) return goOn(next);
  return took(next, line, placed(calculatorOf(flow), next.values, line), true);
}

function tookText(flow: CalculateFlow, field: Field, line: string): Move {
  const slip = isChoice(field) ? undefined : slipAt(field, flow.values, line);
  if (slip !== undefined) return { flow, says: [problemSay(slip)] };
  const result = placed(calculatorOf(flow), flow.values, line);
  return took(flow, line, result, amountsIn(line).filter(({ kind }) => kind === 'amount').length > 1);
}

function answerCaution(flow: CalculateFlow, event: Understood): Move | undefined {
  const isRead = event.kind === 'answer' && event.option === 'understood';
  return isRead ? goOn({ ...flow, heard: flow.heard + 1 }) : undefined;
}

/** Answers a message within a calculator; undefined where it does not fit what is asked. */
export function answerCalculate(flow: CalculateFlow, event: Understood): Move | undefined {
  if (event.kind === 'answer' && event.option === LEAVE.id) return { flow: flow.then };
  if (askCaution(flow) !== undefined) return answerCaution(flow, event);
  const field = openField(flow);
  if (field === undefined) return { flow: flow.then };
  if (event.kind === 'command') return skipped(flow, field);
  if (event.kind === 'unclear') return tookText(flow, field, event.text);
  if (event.kind !== 'answer') return undefined;
  if (event.option === 'skip') return skipped(flow, field);
  if (!isChoice(field)) return tookText(flow, field, event.option);
  return event.option in field.choices ? tookChoice(flow, field, event.option) : undefined;
}
