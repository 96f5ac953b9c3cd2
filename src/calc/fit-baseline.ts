/** Sets a loop so that it shows what the pool's own gauges showed when everything was clean and working. */
import type { Gauges, PoolLoop } from './circulation.ts';
import { operatingPoint } from './circulation.ts';
import { pumpHeadM } from './pump-curve.ts';
import { waterWeightNPerM3 } from './water.ts';

export type FittedLoop =
  | { readonly kind: 'fitted'; readonly loop: PoolLoop }
  | {
      readonly kind: 'impossible';
      /** `beyond-pump`: these readings need more head than the pump has. The others: below what heights allow. */
      readonly reason: 'beyond-pump' | 'pressure-too-low' | 'vacuum-too-low' | 'suction-too-high' | 'no-flow';
    };

type Impossible = Extract<FittedLoop, { kind: 'impossible' }>;

/**
 * The loop whose operating point shows the given clean readings; what was not read is kept from the loop given.
 * A clean baseline has no leak, so the fitted loop has none. With pressure and vacuum both read the pump curve gives the flow, and the
 * losses follow. A reading that is missing is first taken from the loop itself, so the fit is exact for the
 * readings that were given. The tester's reading moves loss between hose, other branch and common line only.
 */
export function fitToBaseline(given: PoolLoop, readings: Partial<Gauges>): FittedLoop {
  const loop = { ...given, leakAreaM2: 0 };
  const now = operatingPoint(loop);
  if (now.kind === 'none') return impossible('no-flow');
  const weight = waterWeightNPerM3(loop.waterC);
  const suctionM = (readings.pumpVacuumPa ?? now.pumpVacuumPa) / weight - loop.pumpAbovePoolM;
  const dischargeM = (readings.filterPressurePa ?? now.filterPressurePa) / weight + loop.gaugeAbovePoolM;
  if (!(suctionM > 0)) return impossible('vacuum-too-low');
  if (!(dischargeM > 0)) return impossible('pressure-too-low');
  const flow = flowAtHead(loop, suctionM + dischargeM);
  if (!(flow > 0)) return impossible('beyond-pump');
  const { flowM3PerS, filterPressurePa, pumpVacuumPa } = now;
  const suctionScale = (suctionM / (pumpVacuumPa / weight - loop.pumpAbovePoolM)) * (flowM3PerS / flow) ** 2;
  const dischargeScale = dischargeM / (filterPressurePa / weight + loop.gaugeAbovePoolM);
  const scaled = scaleDischarge(scaleSuction(loop, suctionScale), dischargeScale, flowM3PerS / flow);
  if (readings.cleanerSuctionPa === undefined) return { kind: 'fitted', loop: scaled };
  return shiftToTester(scaled, readings.cleanerSuctionPa / weight);
}

function impossible(reason: Impossible['reason']): FittedLoop {
  return { kind: 'impossible', reason };
}

/** The flow at which the loop's pump gives this head; NaN when it never does. */
function flowAtHead(loop: PoolLoop, headM: number): number {
  const { pump } = loop;
  const spareM = pumpHeadM(pump, 0, pump.speedRatio) - headM;
  return pump.impellerFactor * Math.sqrt(spareM / pump.curveCoefficient);
}

function scaleSuction(loop: PoolLoop, scale: number): PoolLoop {
  const { cleaner, other } = loop;
  return {
    ...loop,
    cleaner: {
      ...cleaner,
      hoseLoss: cleaner.hoseLoss * scale,
      lineLoss: cleaner.lineLoss * scale,
      bypassConductance: cleaner.bypassConductance / Math.sqrt(scale),
    },
    other: { ...other, loss: other.loss * scale },
    commonLoss: loop.commonLoss * scale,
  };
}

/** Every discharge head scaled alike, at a flow that is the old one over `flowRatio`. */
function scaleDischarge(loop: PoolLoop, headScale: number, flowRatio: number): PoolLoop {
  const square = headScale * flowRatio * flowRatio;
  return {
    ...loop,
    filter: { linear: loop.filter.linear * headScale * flowRatio, square: loop.filter.square * square },
    returnLoss: loop.returnLoss * square,
  };
}

/** Keeps flow, split and total vacuum, and moves suction loss so that the tester shows this head. */
function shiftToTester(loop: PoolLoop, testerM: number): FittedLoop {
  const now = operatingPoint(loop);
  if (now.kind === 'none') return impossible('no-flow');
  const weight = waterWeightNPerM3(loop.waterC);
  const suctionM = now.pumpVacuumPa / weight - loop.pumpAbovePoolM;
  const wasTesterM = now.cleanerSuctionPa / weight;
  const branchFlow = now.flowM3PerS - now.otherFlowM3PerS;
  const lineM = loop.cleaner.lineLoss * (branchFlow / loop.cleaner.opening) ** 2;
  const commonM = suctionM - testerM - lineM;
  if (!(commonM >= 0 && testerM > 0 && wasTesterM > 0)) return impossible('suction-too-high');
  const hoseScale = testerM / wasTesterM;
  const otherScale = (testerM + lineM) / (wasTesterM + lineM);
  const { cleaner, other } = loop;
  const fitted: PoolLoop = {
    ...loop,
    cleaner: {
      ...cleaner,
      hoseLoss: cleaner.hoseLoss * hoseScale,
      bypassConductance: cleaner.bypassConductance / Math.sqrt(hoseScale),
    },
    other: { ...other, loss: other.loss * otherScale },
    commonLoss: commonM / now.flowM3PerS ** 2,
  };
  return { kind: 'fitted', loop: fitted };
}
