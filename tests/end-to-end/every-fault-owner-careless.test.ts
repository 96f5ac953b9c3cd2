import { expect, it } from 'vitest';
import { campaign, HEADER, isNamed, row, SEED } from '../truth/campaign.ts';

it(
  'should name nine faults in ten for an owner with one wrong and two unsure answers',
  { timeout: 1_800_000 },
  async () => {
    const runs = await campaign('owner', true, 6);
    console.log(`seed ${SEED}\n${HEADER}\n${row('one wrong, two unsure', 'owner', runs)}`);
    expect(runs.filter(isNamed).length / runs.length).toBeGreaterThanOrEqual(0.9);
  },
);
