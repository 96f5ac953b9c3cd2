/** What each calculator answers. The numbers come from calc; here they are put into texts. */
import { flowAtHeadM3PerS, totalDynamicHeadM } from '../../calc/flow-from-gauges.ts';
import { VELOCITY_LIMIT_M_PER_S } from '../../calc/pipe-friction.ts';
import { flowAtVelocityM3PerS, pipeBore, runLoss } from '../../calc/pipe-run.ts';
import { genericPumpCurve } from '../../calc/pump-curve.ts';
import { flowForTurnoverM3PerS, turnoverHours } from '../../calc/turnover.ts';
import { WATER_N_PER_M3 } from '../../calc/units.ts';
import { circleAreaM2, kidneyAreaM2, meanDepthM, ovalAreaM2, rectangleAreaM2 } from '../../calc/volume.ts';
import type { Text } from '../say.ts';
import { text } from '../say.ts';
import { echoes, rounded, shownIn, shownInAll, volumeShown } from './amount-words.ts';
import { backwashResult, deResult, soakResult } from './dosing-results.ts';
import type { CalculatorId, Values } from './fields.ts';
import { amountOf, choiceOf, needed } from './fields.ts';
import { speedResult } from './speed-result.ts';

const flowShown = (flowM3PerS: number): Text => shownInAll(flowM3PerS, 'gpm', 'm3/h', 'l/min');

/** Whether water at this velocity is too fast for suction or return pipe. */
function velocityWarning(velocityMPerS: number): Text {
  const limits = {
    suction: shownInAll(VELOCITY_LIMIT_M_PER_S.suction, 'ft/s', 'm/s'),
    return: shownInAll(VELOCITY_LIMIT_M_PER_S.return, 'ft/s', 'm/s'),
  };
  // The limits are whole feet a second: exactly at one is not above it.
  const isAbove = (limit: number): boolean => velocityMPerS > limit * (1 + 1e-9);
  const band = isAbove(VELOCITY_LIMIT_M_PER_S.return)
    ? 'above-both'
    : isAbove(VELOCITY_LIMIT_M_PER_S.suction)
      ? 'above-suction'
      : 'within';
  return text(`calculators:velocity.${band}`, {
    velocity: shownInAll(velocityMPerS, 'ft/s', 'm/s'),
    ...limits,
  });
}

function boreLine(sizeM: number): Text {
  const { insideM, taken } = pipeBore(sizeM);
  return text(taken ? 'calculators:bore.taken' : 'calculators:bore.known', {
    inside: shownInAll(insideM, 'in', 'mm'),
  });
}

function flowResult(values: Values): Text[] {
  return choiceOf(values, 'from') === 'velocity' ? flowByVelocity(values) : flowByGauges(values);
}

function flowByVelocity(values: Values): Text[] {
  const [size, velocity] = [needed(values, 'size'), needed(values, 'velocity')];
  const flow = flowAtVelocityM3PerS(velocity, pipeBore(size).insideM);
  return [
    text('calculators:flow.by-velocity', {
      given: echoes(values, 'size', 'velocity'),
      flow: flowShown(flow),
    }),
    boreLine(size),
    velocityWarning(velocity),
  ];
}

function flowByGauges(values: Values): Text[] {
  const headM = totalDynamicHeadM(needed(values, 'pressure'), needed(values, 'vacuum'));
  const given = echoes(values, 'pressure', 'vacuum', 'power');
  const head = shownInAll(headM, 'ft', 'm');
  const curve = genericPumpCurve(needed(values, 'power'));
  const flow = flowAtHeadM3PerS(curve, headM);
  if (flow === undefined)
    return [
      text('calculators:flow.beyond', { given, head, most: shownInAll(curve.shutOffHeadM, 'ft', 'm') }),
    ];
  return [
    text('calculators:flow.by-gauges', { given, head, flow: flowShown(flow) }),
    text('calculators:flow.generic'),
  ];
}

function surfaceM2(values: Values): number {
  const of = (id: string): number => needed(values, id);
  switch (choiceOf(values, 'shape')) {
    case 'circle':
      return circleAreaM2(of('diameter'));
    case 'oval':
      return ovalAreaM2(of('length'), of('width'));
    case 'kidney':
      return kidneyAreaM2(of('length'), of('widest'), of('narrowest'));
    default:
      return rectangleAreaM2(of('length'), of('width'));
  }
}

function volumeResult(values: Values): Text[] {
  const shape = choiceOf(values, 'shape') ?? 'rectangle';
  const shallow = needed(values, 'shallow');
  const depthM = meanDepthM(shallow, amountOf(values, 'deep') ?? shallow);
  const given = echoes(values, 'length', 'width', 'widest', 'narrowest', 'diameter', 'shallow', 'deep');
  const lines = [
    text('calculators:volume.answer', {
      shape: text(`calculators:volume.choice.shape.${shape}`),
      given,
      depth: shownInAll(depthM, 'ft', 'm'),
      volume: volumeShown(surfaceM2(values) * depthM),
    }),
  ];
  return shape === 'kidney' ? [...lines, text('calculators:volume.approximate')] : lines;
}

function turnoverResult(values: Values): Text[] {
  const volume = needed(values, 'volume');
  const [flow, wished] = [amountOf(values, 'flow'), amountOf(values, 'hours')];
  const lines: Text[] = [];
  if (flow !== undefined) {
    const hours = turnoverHours(volume, flow);
    const day = rounded(24 / hours);
    lines.push(
      text('calculators:turnover.answer', {
        given: echoes(values, 'volume', 'flow'),
        hours: shownIn(hours * 3600, 'h'),
        day,
      }),
    );
  }
  if (wished !== undefined) {
    const given = { volume: echoes(values, 'volume'), hours: echoes(values, 'hours') };
    lines.push(
      text('calculators:turnover.wished', {
        ...given,
        flow: flowShown(flowForTurnoverM3PerS(volume, wished / 3600)),
      }),
    );
  }
  return lines;
}

function headlossResult(values: Values): Text[] {
  const size = needed(values, 'size');
  const elbows = amountOf(values, 'fittings') ?? 0;
  const { insideM } = pipeBore(size);
  const loss = runLoss(needed(values, 'flow'), needed(values, 'length'), insideM, elbows);
  return [
    text('calculators:headloss.answer', {
      given: echoes(values, 'size', 'length', 'flow'),
      head: shownInAll(loss.headM, 'ft', 'm'),
      pressure: shownInAll(loss.headM * WATER_N_PER_M3, 'psi', 'kPa'),
    }),
    elbows === 0
      ? text('calculators:headloss.no-fittings')
      : text('calculators:headloss.fittings', { elbows }),
    boreLine(size),
    velocityWarning(loss.velocityMPerS),
  ];
}

const RESULTS: Readonly<Record<CalculatorId, (values: Values) => Text[]>> = {
  flow: flowResult,
  volume: volumeResult,
  turnover: turnoverResult,
  headloss: headlossResult,
  speed: speedResult,
  de: deResult,
  backwash: backwashResult,
  soak: soakResult,
};

/** The answer of a calculator, a text a paragraph. Every required value must have been given. */
export function resultOf(id: CalculatorId, values: Values): Text[] {
  return RESULTS[id](values);
}
