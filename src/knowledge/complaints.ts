import type { ComplaintId } from './ids.ts';
import type { Complaint, EquipmentKey, When } from './schema.ts';

const SUCTION_SIDE: readonly EquipmentKey[] = ['cleaner', 'connection', 'canister', 'pump', 'filter'];
const PUMP: readonly EquipmentKey[] = ['cleaner', 'pump'];
const FILTER: readonly EquipmentKey[] = ['cleaner', 'filter', 'multiport'];
const DRIVEN: When = { cleaner: ['suction', 'pressure-booster', 'pressure-return', 'robotic'] };
const ROBOT: When = { cleaner: ['robotic'] };

interface Flags {
  ofCleaner?: boolean;
  common?: boolean;
  when?: When;
}

function complaint(id: ComplaintId, asks: readonly EquipmentKey[], flags: Flags = {}): Complaint {
  return { id, asks, ofCleaner: false, common: false, when: {}, ...flags };
}

export const COMPLAINTS: readonly Complaint[] = [
  complaint('not-moving', SUCTION_SIDE, { ofCleaner: true, common: true, when: DRIVEN }),
  complaint('moves-slowly', SUCTION_SIDE, { ofCleaner: true, common: true, when: DRIVEN }),
  complaint('one-area', SUCTION_SIDE, { ofCleaner: true, common: true, when: DRIVEN }),
  complaint('poor-pickup', SUCTION_SIDE, { ofCleaner: true, common: true, when: DRIVEN }),
  complaint('air-in-pump', SUCTION_SIDE, { common: true }),
  complaint('pump-dead', PUMP, { common: true }),
  complaint('pressure-high', FILTER, { common: true }),
  complaint('robot-dead', ['cleaner'], { ofCleaner: true, common: true, when: ROBOT }),
  complaint('wont-climb', SUCTION_SIDE, { ofCleaner: true, when: DRIVEN }),
  complaint('floats-or-tips', SUCTION_SIDE, { ofCleaner: true, when: DRIVEN }),
  complaint('plate-pops-out', SUCTION_SIDE, { ofCleaner: true, when: { cleaner: ['suction'] } }),
  complaint('bubbles-at-returns', SUCTION_SIDE),
  complaint('wont-prime', SUCTION_SIDE),
  complaint('pump-hums', PUMP),
  complaint('breaker-trips', PUMP),
  complaint('pressure-low', SUCTION_SIDE),
  complaint('pressure-climbs-fast', FILTER),
  complaint('debris-returns', FILTER),
  complaint('weak-hand-vacuum', ['cleaner', 'connection', 'pump', 'filter', 'multiport']),
  complaint('pump-noise', PUMP),
  complaint('pad-leak', PUMP),
  complaint('robot-stops-early', ['cleaner'], { ofCleaner: true, when: ROBOT }),
  complaint('cable-tangles', ['cleaner'], { ofCleaner: true, when: ROBOT }),
  complaint('cloudy-water', FILTER),
];
