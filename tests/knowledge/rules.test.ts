import { describe, expect, it } from 'vitest';
import { breachesOf, RULES } from '../../src/knowledge/rules/index.ts';
import type { FaultId } from '../../src/knowledge/ids.ts';
import type { Trade } from '../../src/knowledge/schema.ts';
import { TRADE } from '../../src/knowledge/trade.ts';
import {
  brokenCaution,
  brokenCheck,
  brokenComplaint,
  brokenDeeperCause,
  brokenFault,
  brokenRepair,
  checkWithout,
  repairWithout,
} from './broken.ts';

type Break = readonly [rule: keyof typeof RULES, what: string, trade: Trade, path: string, message: string];

const withoutFault = (id: FaultId): Trade => ({
  ...TRADE,
  faults: TRADE.faults.filter((fault) => fault.id !== id),
});

const BREAKS: readonly Break[] = [
  [
    'dataFitsSchemas',
    'a repair that cures too seldom',
    brokenRepair('hose-split', { cures: 0.2 }),
    'faults.hose-split.repair.cures',
    'Too small: expected number to be >=0.5',
  ],
  ['idsComplete', 'a fault without data', withoutFault('bag-full'), 'faults.bag-full', 'has no data'],
  [
    'idsComplete',
    'a caution with data twice',
    { ...TRADE, cautions: [...TRADE.cautions, ...TRADE.cautions.filter(({ id }) => id === 'never-mix')] },
    'cautions.never-mix',
    'has data 2 times',
  ],
  [
    'conditionsKnown',
    'a condition that no pool meets',
    brokenFault('bag-full', (fault) => ({ ...fault, when: { cleaner: ['steam'] } })),
    'faults.bag-full.when.cleaner',
    'no pool has the cleaner "steam"',
  ],
  [
    'conditionsKnown',
    'a caution on a condition that no pool meets',
    brokenRepair('bag-full', {
      cautions: [{ id: 'pump-off' }, { id: 'drowning' }, { id: 'de-dust', when: { filter: ['paper'] } }],
    }),
    'faults.bag-full.repair.cautions.de-dust.when.filter',
    'no pool has the filter "paper"',
  ],
  [
    'distributionsSound',
    'probabilities that do not sum to one',
    brokenCheck('water-level', { base: [0.75, 0.5] }),
    'checks.water-level.base',
    'sums to 1.25 and not to 1',
  ],
  [
    'distributionsSound',
    'a row with one probability too many',
    brokenCheck('water-level', { given: [{ faults: ['water-low'], outcomes: [0.03, 0.9, 0.07] }] }),
    'checks.water-level.given.0',
    'has 3 probabilities for 2 outcomes',
  ],
  [
    'distributionsSound',
    'a fault in two rows',
    brokenCheck('water-level', {
      given: [
        { faults: ['water-low'], outcomes: [0.03, 0.97] },
        { faults: ['water-low'], outcomes: [0.1, 0.9] },
      ],
    }),
    'checks.water-level.given',
    '"water-low" stands in two rows; only the first would count',
  ],
  [
    'distributionsSound',
    'an outcome that is telling and silent',
    brokenCheck('water-level', { silent: ['low'] }),
    'checks.water-level.outcomes',
    '"low" stands there twice',
  ],
  [
    'normalFirst',
    'a check that starts with what is rare',
    brokenCheck('water-level', { base: [0.05, 0.95] }),
    'checks.water-level.base',
    '"normal" comes first but is not the likeliest',
  ],
  [
    'checksNeeded',
    'a check that no fault changes',
    brokenCheck('bag-look', { given: [] }),
    'checks.bag-look',
    'no fault changes its answer clearly',
  ],
  [
    'checksNeeded',
    'a check whose only fault needs another cleaner',
    brokenCheck('bag-look', { when: { cleaner: ['robotic'] } }),
    'checks.bag-look',
    'no fault changes its answer clearly',
  ],
  [
    'faultsRevealed',
    'a fault that no check tells of',
    brokenCheck('jets-look', { given: [] }),
    'faults.jets-blocked',
    'no permitted check tells of it',
  ],
  [
    'faultsRevealed',
    'a fault that only an electrician could see',
    brokenCheck('jets-look', { class: 4 }),
    'faults.jets-blocked',
    'no permitted check tells of it',
  ],
  [
    'faultsReachable',
    'a fault that no complaint leads to',
    brokenFault('bag-full', (fault) => ({ ...fault, complaints: { 'robot-dead': 1 } })),
    'faults.bag-full.complaints',
    'no complaint of a pool that can have it leads to it',
  ],
  [
    'faultsReachable',
    'a row for a fault of another kind of cleaner',
    brokenCheck('bag-look', { given: [{ faults: ['robot-drive-failed'], outcomes: [0.5, 0.5] }] }),
    'checks.bag-look.given',
    'no pool that the check fits can have "robot-drive-failed"',
  ],
  [
    'faultsHaveActor',
    'an owner led to an impeller',
    brokenFault('impeller-clogged', (fault) => ({ ...fault, who: ['owner', 'technician'] })),
    'faults.impeller-clogged.who',
    'a repair of class 3 is not for the owner',
  ],
  [
    'hazardsCautioned',
    'a step with the pump off and no caution',
    brokenRepair('multiport-wrong', { cautions: [] }),
    'faults.multiport-wrong.repair',
    'is of class 2 and carries no caution',
  ],
  [
    'hazardsCautioned',
    'licensed work that does not say so',
    checkWithout('motor-electrical', 'local-code'),
    'checks.motor-electrical',
    'is licensed work without local-code',
  ],
  [
    'wetHandsGuarded',
    'hands in the water beside an open suction',
    checkWithout('hose-hand-feel', 'suction-entrapment'),
    'checks.hose-hand-feel',
    'puts hands in the water without suction-entrapment or pump-off',
  ],
  [
    'wetHandsGuarded',
    'a person leaning over the water unwarned',
    repairWithout('cleaner-worn', 'drowning'),
    'faults.cleaner-worn.repair',
    'leans over the water without drowning',
  ],
  [
    'needsBroughtSafely',
    'a lid to be opened without the word to stop the pump',
    checkWithout('strainer-basket', 'pump-off'),
    'checks.strainer-basket',
    'needs pump off but carries no pump-off or power-lockout',
  ],
  [
    'needsBroughtSafely',
    'a lid to be opened with the pump running',
    brokenCheck('strainer-basket', { needs: { lid: 'open' } }),
    'checks.strainer-basket',
    'opens the circulation with the pump on',
  ],
  [
    'filterOpenedSafely',
    'a filter opened under pressure',
    brokenRepair('filter-dirty', { needs: { pump: 'off' } }),
    'faults.filter-dirty.repair',
    'opens the filter under pressure',
  ],
  [
    'filterOpenedSafely',
    'a filter opened without its caution',
    repairWithout('filter-media-spent', 'filter-pressure'),
    'faults.filter-media-spent.repair',
    'opens the filter without filter-pressure',
  ],
  [
    'robotUnpluggedFirst',
    'a hand in a robot that is plugged in',
    brokenCheck('robot-impeller', { needs: {} }),
    'checks.robot-impeller',
    'puts a hand on a robot that may be plugged in',
  ],
  [
    'restartCautioned',
    'a restart with swimmers in the pool',
    repairWithout('prime-lost', 'restart-swimmers'),
    'faults.prime-lost.repair',
    'restarts the pump without restart-swimmers',
  ],
  [
    'electricsCautioned',
    'a breaker reset with wet hands',
    repairWithout('breaker-tripped', 'electric-water'),
    'faults.breaker-tripped.repair',
    'works at the supply without electric-water',
  ],
  [
    'cautionsGuardWhatTheyBring',
    'a word to unplug that outlives plugging in again',
    brokenCaution('robot-unplug', { guards: ['pump'] }),
    'cautions.robot-unplug.guards',
    'does not lapse when robot changes',
  ],
  [
    'cautionsGuardWhatTheyBring',
    'a word to stop the pump that leaves it running',
    brokenCaution('pump-off', { brings: {} }),
    'cautions.pump-off.brings',
    'does not bring pump off',
  ],
  [
    'cautionsGuardWhatTheyBring',
    'a warning that changes the pad',
    brokenCaution('drowning', { brings: { pump: 'off' } }),
    'cautions.drowning.brings',
    'is not there to change the pad',
  ],
  [
    'complaintsShown',
    'a complaint that no fault of a robot shows',
    brokenComplaint('plate-pops-out', { when: { cleaner: ['suction', 'robotic'] } }),
    'complaints.plate-pops-out',
    'no fault of a pool with the cleaner "robotic" shows as it',
  ],
  [
    'asksSensible',
    'a question put twice',
    brokenComplaint('pump-dead', { asks: ['cleaner', 'pump', 'pump'] }),
    'complaints.pump-dead.asks',
    'asks for "pump" twice',
  ],
  [
    'asksSensible',
    'a question before the one it hangs on',
    brokenComplaint('cloudy-water', { asks: ['cleaner', 'multiport', 'filter'] }),
    'complaints.cloudy-water.asks',
    'asks for "multiport" before "filter"',
  ],
  [
    'deeperCausesSound',
    'a fault with two deeper causes',
    brokenDeeperCause('air-gets-in', { of: ['prime-lost', 'water-low'] }),
    'deeperCauses.air-gets-in.of.water-low',
    'has a deeper cause already',
  ],
  [
    'deeperCausesSound',
    'an electrical fault that sends for no electrician',
    {
      ...brokenDeeperCause('water-at-motor', { of: ['motor-worn', 'robot-outlet-dead'] }),
      deeperCauses: brokenDeeperCause('water-at-motor', {
        of: ['motor-worn', 'robot-outlet-dead'],
      }).deeperCauses.map((cause) =>
        cause.id === 'supply-faulty' ? { ...cause, of: ['breaker-tripped'] } : cause,
      ),
    },
    'deeperCauses.water-at-motor.of.robot-outlet-dead',
    'an electrical fault that does not lead to the supply',
  ],
  [
    'asksSensible',
    'a complaint that does not start with the cleaner',
    brokenComplaint('pump-dead', { asks: ['pump', 'cleaner'] }),
    'complaints.pump-dead.asks',
    'does not ask for the cleaner first',
  ],
];

describe("the rules of the trade's data", () => {
  it('should find no breach in the data as it is', () => {
    expect(breachesOf(TRADE)).toEqual([]);
  });

  it.each(BREAKS)('%s should find %s', (rule, _what, trade, path, message) => {
    expect(RULES[rule](trade).map((breach) => [breach.path, breach.message])).toEqual([[path, message]]);
    expect(breachesOf(trade).map((breach) => breach.path)).toContain(path);
  });

  it('should say that nobody may do a repair left to nobody who may', () => {
    const trade = brokenFault('impeller-clogged', (fault) => ({ ...fault, who: ['owner'] }));
    expect(RULES.faultsHaveActor(trade).map(({ message }) => message)).toEqual([
      'a repair of class 3 is not for the owner',
      'nobody named may do the repair',
    ]);
  });

  it('should not count a question on which nothing hangs', () => {
    const faults = TRADE.faults.map((fault) =>
      fault.id === 'pump-speed-low' ? { ...fault, when: {} } : fault,
    );
    const complaints = TRADE.complaints.filter(({ id }) => id === 'pump-dead');
    expect(RULES.asksSensible({ ...TRADE, faults, complaints }).map(({ message }) => message)).toEqual([
      'nothing hangs on "pump"',
    ]);
  });

  it('should report all breaches at once, each with a tip', () => {
    const trade = { ...brokenRepair('multiport-wrong', { cautions: [] }), complaints: [] };
    const breaches = breachesOf(trade);
    expect(breaches.length).toBeGreaterThan(20);
    expect(breaches.every(({ tip }) => tip.length > 10)).toBe(true);
  });

  it.each(Object.keys(RULES))('should have a test that breaks %s', (rule) => {
    expect(BREAKS.map(([name]) => name)).toContain(rule);
  });
});
