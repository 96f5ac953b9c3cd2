import { describe, expect, it } from 'vitest';
import { filterLoss, filterLossM, type FilterType } from '../../src/calc/filter-loss.ts';
import { M2_PER_FT2, M3S_PER_GPM, M_PER_FT } from '../../src/calc/units.ts';

const USUAL: readonly [FilterType, number][] = [
  ['sand', 3.14],
  ['cartridge', 200],
  ['de', 40],
];

describe('the loss of a filter', () => {
  it.each(USUAL)('should be 1 to 12 ft in a clean %s filter of %f ft² at 50 gpm', (type, ft2) => {
    // Common practice, no source: a clean filter takes some 1 to 5 psi.
    const loss = filterLossM(filterLoss({ type, areaM2: ft2 * M2_PER_FT2, dirtFactor: 1 }), 50 * M3S_PER_GPM);
    expect(loss / M_PER_FT).toBeGreaterThan(1);
    expect(loss / M_PER_FT).toBeLessThan(12);
  });

  it.each(USUAL)('should grow with dirt and shrink with area in a %s filter', (type, ft2) => {
    const at = (area: number, dirtFactor: number): number =>
      filterLossM(filterLoss({ type, areaM2: area, dirtFactor }), 0.003);
    const area = ft2 * M2_PER_FT2;
    expect(at(area, 5)).toBeGreaterThan(at(area, 1));
    expect(at(2 * area, 1)).toBeLessThan(at(area, 1));
    // Dirt and area act on the media alone, and by Darcy's law cancel: twice the dirt on twice the area.
    expect(at(2 * area, 2)).toBeCloseTo(at(area, 1), 12);
  });

  // Ergun's laminar term, 150 μ (1−ε)² L v / (ε³ d² ρ g): 0.5 m of 0.5 mm sand, ε 0.4, water at 20 °C.
  it('should agree with Ergun for sand, within a third', () => {
    const ergunS = (150 * 1.002e-3 * 0.36 * 0.5) / (0.064 * 0.25e-6 * 998.2 * 9.80665);
    const mediaS = filterLoss({ type: 'sand', areaM2: 1, dirtFactor: 1 }).linear;
    expect(Math.abs(mediaS / ergunS - 1)).toBeLessThan(0.34);
  });
});
