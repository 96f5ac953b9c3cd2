/**
 * The circulation model against EPANET 2.3, the public water-distribution engine (OWA-EPANET through epanet-js).
 * Source: L. A. Rossman, EPANET 2 Users Manual, EPA/600/R-00/057: Hazen-Williams friction, minor losses,
 * a pump curve H = A − B Q², and a general-purpose valve for the filter. Air and boiling are not in EPANET.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { operatingPoint, type FlowingPoint, type PoolLoop } from '../../src/calc/circulation.ts';
import { squareLossCoefficient } from '../../src/calc/pipe-friction.ts';
import { ATMOSPHERE_PA } from '../../src/calc/units.ts';
import { waterWeightNPerM3 } from '../../src/calc/water.ts';
import {
  POOL_LEVEL_M,
  inputFile,
  randomFrom,
  randomNetwork,
  type Network,
  type PipeName,
} from './random-pool-network.ts';

const SEED = 20_240_611;
const NETWORKS_PER_KIND = 150;
const WATER_C = 20;
/** What both sides answer: flows in m³/s, heads in m against the pool. */
interface Answer {
  readonly flow: number;
  readonly cleanerFlow: number;
  readonly otherFlow: number;
  readonly testerM: number;
  readonly vacuumM: number;
  readonly gaugeM: number;
  readonly pumpHeadM: number;
}

/** The part of epanet-js used here; its own declarations cannot be resolved by a strict ESM compiler. */
interface EpanetWorkspace {
  readonly version: number;
  loadModule(): Promise<void>;
  writeFile(path: string, content: string): void;
}
interface EpanetProject {
  open(input: string, report: string, output: string): void;
  solveH(): void;
  close(): void;
  getLinkIndex(id: string): number;
  getNodeIndex(id: string): number;
  getLinkValue(index: number, property: number): number;
  getNodeValue(index: number, property: number): number;
}
interface Epanet {
  readonly Workspace: new () => EpanetWorkspace;
  readonly Project: new (workspace: EpanetWorkspace) => EpanetProject;
  readonly LinkProperty: { readonly Flow: number };
  readonly NodeProperty: { readonly Head: number };
}

const epanet = (await import('epanet-js')) as unknown as Epanet;
const workspace = new epanet.Workspace();
beforeAll(async () => {
  await workspace.loadModule();
});

function byEpanet(network: Network): Answer {
  const project = new epanet.Project(workspace);
  workspace.writeFile('pool.inp', inputFile(network));
  project.open('pool.inp', 'pool.rpt', 'pool.out');
  project.solveH();
  const flow = (id: string): number =>
    project.getLinkValue(project.getLinkIndex(id), epanet.LinkProperty.Flow) / 1000;
  const head = (id: string): number =>
    project.getNodeValue(project.getNodeIndex(id), epanet.NodeProperty.Head) - POOL_LEVEL_M;
  const answer = {
    flow: flow('pump'),
    cleanerFlow: flow('hose'),
    otherFlow: flow('other'),
    testerM: -head('TESTER'),
    vacuumM: -head('INLET'),
    gaugeM: head('GAUGE'),
    pumpHeadM: head('GAUGE') - head('INLET'),
  };
  project.close();
  return answer;
}

function loopOf(network: Network, loss: Record<PipeName, number>): PoolLoop {
  return {
    pump: {
      shutOffHeadM: network.shutOffHeadM,
      curveCoefficient: network.shutOffHeadM / network.largestFlow ** 2,
      speedRatio: network.speedRatio,
      impellerFactor: 1,
    },
    cleaner: { hoseLoss: loss.hose, lineLoss: loss.line, opening: 1, bypassConductance: 0 },
    other: { loss: loss.other, opening: 1 },
    commonLoss: loss.common,
    filter: network.filter,
    returnLoss: loss.return,
    leakAreaM2: 0,
    gaugeAbovePoolM: 0,
    pumpAbovePoolM: 0,
    waterC: WATER_C,
    atmospherePa: ATMOSPHERE_PA,
  };
}

function flowing(loop: PoolLoop): FlowingPoint {
  const point = operatingPoint(loop);
  if (point.kind === 'none') throw new Error(point.reason);
  return point;
}

/** Our answer: square losses taken at the flows found, eight rounds (the error shrinks about tenfold a round). */
function byModel(network: Network): { answer: Answer; limited: boolean } {
  const at = (name: PipeName, flow: number): number => {
    const { roughnessC, zeta, ...pipe } = network.pipes[name];
    return squareLossCoefficient(flow, pipe, roughnessC, zeta);
  };
  let flows = { total: 2e-3, cleaner: 1e-3, other: 1e-3 };
  let point: FlowingPoint | undefined;
  for (let round = 0; round < 8; round += 1) {
    const loss = {
      hose: at('hose', flows.cleaner),
      line: at('line', flows.cleaner),
      other: at('other', flows.other),
      common: at('common', flows.total),
      return: at('return', flows.total),
    };
    point = flowing(loopOf(network, loss));
    flows = { total: point.flowM3PerS, cleaner: point.cleanerFlowM3PerS, other: point.otherFlowM3PerS };
  }
  if (point === undefined) throw new Error('no round was run');
  const weight = waterWeightNPerM3(WATER_C);
  const answer = {
    flow: point.flowM3PerS,
    cleanerFlow: point.cleanerFlowM3PerS,
    otherFlow: point.otherFlowM3PerS,
    testerM: point.cleanerSuctionPa / weight,
    vacuumM: point.pumpVacuumPa / weight,
    gaugeM: point.filterPressurePa / weight,
    pumpHeadM: point.totalDynamicHeadM,
  };
  return { answer, limited: point.vapourLimited };
}

describe.each([
  { kind: 'fittings alone (square losses)', withFriction: false, seed: SEED },
  { kind: 'Hazen-Williams pipes with fittings', withFriction: true, seed: SEED + 1 },
])('random pool loops of $kind', ({ kind, withFriction, seed }) => {
  it(`should agree with EPANET within 0.5 % in every flow and head (seed ${seed})`, () => {
    const random = randomFrom(seed);
    const worst = { flow: 0, head: 0 };
    let compared = 0;
    let boiling = 0;
    while (compared < NETWORKS_PER_KIND) {
      const network = randomNetwork(random, withFriction);
      const { answer, limited } = byModel(network);
      // EPANET knows no boiling: a network whose suction would boil cannot be compared.
      if (limited) {
        boiling += 1;
        continue;
      }
      const reference = byEpanet(network);
      for (const key of Object.keys(reference) as (keyof Answer)[]) {
        const difference = Math.abs(answer[key] / reference[key] - 1);
        const family = key.endsWith('M') ? 'head' : 'flow';
        worst[family] = Math.max(worst[family], difference);
        expect(difference, `${key} of network ${compared}`).toBeLessThan(0.005);
      }
      compared += 1;
    }
    const percent = (value: number): string => `${(value * 100).toFixed(4)} %`;
    console.log(
      `EPANET ${workspace.version}, ${kind}: ${compared} networks, seed ${seed}, ${boiling} left out as boiling; worst difference ` +
        `in flow ${percent(worst.flow)}, in head ${percent(worst.head)}`,
    );
    expect(boiling).toBeLessThan(NETWORKS_PER_KIND / 10);
  });
});
