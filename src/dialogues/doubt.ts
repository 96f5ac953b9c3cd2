/** Clearing up an impossible reading. */
import { answerConsult } from './consult.ts';
import type { Context, Flow, Move } from './conversation.ts';
import type { GaugeReading, Understood } from './event.ts';
import { answerGauge } from './readings.ts';

type DoubtFlow = Extract<Flow, { at: 'doubt' }>;

function answerBelow(flow: DoubtFlow, event: Understood, context: Context): Move | undefined {
  if (flow.then.at === 'consult') return answerConsult(flow.then, event, context);
  return flow.then.at === 'gauge' ? answerGauge(flow.then, event, context) : undefined;
}

/** Answers the question what an impossible reading was meant to be; leaving it out returns to where it came from. */
export function answerDoubt(flow: DoubtFlow, event: Understood, context: Context): Move | undefined {
  if (event.kind === 'readings') return answerBelow(flow, event, context);
  const left = event.kind === 'command' && (event.id === 'skip' || event.id === 'unsure');
  if (left || (event.kind === 'answer' && event.option === 'skip')) return { flow: flow.then };
  const value =
    event.kind === 'answer' ? flow.slips.find((slip) => String(slip) === event.option) : undefined;
  if (value === undefined) return undefined;
  const reading: GaugeReading = { quantity: flow.quantity, value, unit: flow.unit };
  return answerBelow(flow, { kind: 'readings', readings: [reading] }, context);
}
