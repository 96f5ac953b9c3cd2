import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gasFraction, headFactor, leakAirM3PerS } from '../../src/calc/air-leak.ts';
import { operatingPoint, restingGauges, type PoolLoop } from '../../src/calc/circulation.ts';
import { filterLossM } from '../../src/calc/filter-loss.ts';
import { pumpHeadM } from '../../src/calc/pump-curve.ts';
import { withHoseOff } from '../../src/calc/typical-loop.ts';
import { PA_PER_INHG } from '../../src/calc/units.ts';
import { waterWeightNPerM3 } from '../../src/calc/water.ts';
import { RUNS, wildLoop } from './random-loop.ts';
import { flowing, oneHp } from './sample-pools.ts';

function flowOf(loop: PoolLoop): number {
  const point = operatingPoint(loop);
  return point.kind === 'flowing' ? point.flowM3PerS : 0;
}

/** Head the pump gives with the air of this flow, less all losses: written out from the parts, not the solver. */
function surplusHead(loop: PoolLoop, flow: number): { surplusM: number; scaleM: number; air: number } {
  const { cleaner, other, pump } = loop;
  const upstream = 1 / Math.sqrt(cleaner.hoseLoss) + cleaner.bypassConductance;
  const branch = 1 / Math.sqrt(upstream ** -2 + cleaner.lineLoss / cleaner.opening ** 2);
  const together = branch + other.opening / Math.sqrt(other.loss);
  const suctionM = (flow / together) ** 2 + loop.commonLoss * flow ** 2;
  const vacuumPa = (suctionM + loop.pumpAbovePoolM) * waterWeightNPerM3(loop.waterC);
  const air = gasFraction(leakAirM3PerS(loop.leakAreaM2, vacuumPa), flow);
  const givenM = pumpHeadM(pump, flow, pump.speedRatio, pump.impellerFactor) * headFactor(air);
  const lossM = suctionM + filterLossM(loop.filter, flow) + loop.returnLoss * flow ** 2;
  return { surplusM: givenM - lossM, scaleM: pump.speedRatio ** 2 * pump.shutOffHeadM, air };
}

describe('the balance at the operating point', () => {
  it('should give as much head as the loop loses, whatever the parameters', () => {
    let seen = 0;
    let withAir = 0;
    fc.assert(
      fc.property(wildLoop, (loop) => {
        const point = operatingPoint(loop);
        if (point.kind === 'none') return;
        seen += 1;
        if (point.airFraction > 0.01) withAir += 1;
        // A hair less flow and the pump has head to spare; a hair more and it falls short.
        expect(surplusHead(loop, point.flowM3PerS * (1 - 1e-8)).surplusM).toBeGreaterThan(0);
        if (!point.vapourLimited)
          expect(surplusHead(loop, point.flowM3PerS * (1 + 1e-8)).surplusM).toBeLessThan(0);
      }),
      RUNS,
    );
    expect(seen).toBeGreaterThan(RUNS.numRuns / 4);
    expect(withAir).toBeGreaterThan(20);
  });

  it('should neither make nor lose water where the branches meet, nor head between them', () => {
    fc.assert(
      fc.property(wildLoop, (loop) => {
        const point = operatingPoint(loop);
        if (point.kind === 'none') return;
        const weight = waterWeightNPerM3(loop.waterC);
        const testerM = point.cleanerSuctionPa / weight;
        const beside = loop.cleaner.bypassConductance * Math.sqrt(testerM);
        const sum = point.cleanerFlowM3PerS + beside + point.otherFlowM3PerS;
        expect(Math.abs(sum / point.flowM3PerS - 1)).toBeLessThan(1e-9);
        const branchFlow = point.cleanerFlowM3PerS + beside;
        const junctionM = testerM + loop.cleaner.lineLoss * (branchFlow / loop.cleaner.opening) ** 2;
        const vacuumM = junctionM + loop.commonLoss * point.flowM3PerS ** 2 + loop.pumpAbovePoolM;
        expect(Math.abs(vacuumM - point.pumpVacuumPa / weight)).toBeLessThan(1e-7 * (1 + junctionM));
      }),
      RUNS,
    );
  });

  it('should be the largest flow that holds: between it and the airless flow the pump falls short', () => {
    let lostPrime = 0;
    fc.assert(
      fc.property(wildLoop, (loop) => {
        const point = operatingPoint(loop);
        if (point.kind === 'flowing' && point.vapourLimited) return;
        if (point.kind === 'none' && (point.reason !== 'no-prime' || loop.pumpAbovePoolM < 0)) return;
        const airless = flowOf({ ...loop, leakAreaM2: 0 });
        const from = point.kind === 'flowing' ? point.flowM3PerS * (1 + 1e-6) : 0;
        if (point.kind === 'none') lostPrime += 1;
        for (let step = 1; step < 200; step += 1) {
          const { surplusM, scaleM, air } = surplusHead(loop, from + ((airless - from) * step) / 200);
          if (point.kind === 'flowing' || air < 0.08) expect(surplusM).toBeLessThan(1e-9 * scaleM);
        }
      }),
      RUNS,
    );
    expect(lostPrime).toBeGreaterThan(20);
  });

  it('should end, with every number finite or a reason, even far outside of any pool', () => {
    const beyond = wildLoop.chain((loop) =>
      fc
        .record({
          leakAreaM2: fc.constantFrom(0, 1e-12, 1e-3, 1, 100),
          hoseLoss: fc.constantFrom(1e-6, 1e20, Infinity),
          returnLoss: fc.constantFrom(0, 1e20),
          pumpAbovePoolM: fc.constantFrom(-50, 0, 9, 12, 50),
        })
        .map(({ hoseLoss, ...rest }) => ({ ...loop, ...rest, cleaner: { ...loop.cleaner, hoseLoss } })),
    );
    fc.assert(
      fc.property(beyond, (loop) => {
        const point = operatingPoint(loop);
        if (point.kind === 'none') return;
        for (const value of Object.values(point))
          if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
        expect(point.flowM3PerS).toBeGreaterThan(0);
      }),
      RUNS,
    );
  });
});

describe('where nothing flows', () => {
  it('should say that the pump stands still', () => {
    const stopped = { ...oneHp, pump: { ...oneHp.pump, speedRatio: 0 } };
    expect(operatingPoint(stopped)).toEqual({ kind: 'none', reason: 'pump-stopped' });
    expect(restingGauges(stopped).filterPressurePa).toBe(0);
    expect(restingGauges(stopped).pumpVacuumPa / PA_PER_INHG).toBeCloseTo(0.43, 1);
  });

  it('should say that every suction is closed', () => {
    const closed = {
      ...oneHp,
      cleaner: { ...oneHp.cleaner, opening: 0 },
      other: { ...oneHp.other, opening: 0 },
    };
    expect(operatingPoint(closed)).toEqual({ kind: 'none', reason: 'suction-closed' });
    const blocked = { ...closed, cleaner: { ...oneHp.cleaner, hoseLoss: Infinity } };
    expect(operatingPoint(blocked)).toEqual({ kind: 'none', reason: 'suction-closed' });
  });

  it('should say that the pump stands higher than water can be drawn', () => {
    expect(operatingPoint({ ...oneHp, pumpAbovePoolM: 10.3 })).toEqual({
      kind: 'none',
      reason: 'lift-too-high',
    });
  });

  it('should lose its prime through a hole of 30 mm² above the water, and not when the pump is flooded', () => {
    const holed = { ...oneHp, leakAreaM2: 30e-6 };
    expect(operatingPoint(holed)).toEqual({ kind: 'none', reason: 'no-prime' });
    // A pump two metres below the water drips from a hole and draws no air at low speed.
    const slow = { ...holed.pump, speedRatio: 0.4 };
    expect(flowing({ ...holed, pump: slow, pumpAbovePoolM: -2 }).airFraction).toBe(0);
  });

  it('should settle a flooded pump with a great hole where the vacuum, and with it the air, is nearly gone', () => {
    const point = flowing({ ...oneHp, leakAreaM2: 1e-4, pumpAbovePoolM: -1 });
    expect(point.airFraction).toBeGreaterThan(0.02);
    expect(point.pumpVacuumPa).toBeGreaterThan(0);
    expect(point.pumpVacuumPa).toBeLessThan(200);
    expect(point.flowM3PerS).toBeLessThan(flowing({ ...oneHp, pumpAbovePoolM: -1 }).flowM3PerS);
  });
});

describe('the cleaner branch', () => {
  it('should show nothing at the tester with its valve closed, all the suction with its hose shut tight', () => {
    const closed = flowing({ ...oneHp, cleaner: { ...oneHp.cleaner, opening: 0 } });
    expect(closed.cleanerSuctionPa).toBe(0);
    expect(closed.cleanerFlowM3PerS).toBe(0);
    const shut = flowing({ ...oneHp, cleaner: { ...oneHp.cleaner, hoseLoss: Infinity } });
    const nearlyShut = flowing({ ...oneHp, cleaner: { ...oneHp.cleaner, hoseLoss: 1e14 } });
    expect(shut.cleanerFlowM3PerS).toBe(0);
    expect(shut.cleanerSuctionPa / nearlyShut.cleanerSuctionPa).toBeCloseTo(1, 3);
  });

  it('should carry most of the flow in a pool in good order, and none through a cleaner taken off', () => {
    const point = flowing(oneHp);
    expect(point.cleanerFlowM3PerS / point.flowM3PerS).toBeGreaterThan(0.6);
    expect(flowing(withHoseOff(oneHp)).cleanerFlowM3PerS).toBe(0);
  });
});
