import { expect, it } from 'vitest';
import { campaign, HEADER, isNamed, quantile, row } from '../truth/campaign.ts';

it(
  'should name every fault at every kind of pool for an owner who answers truthfully',
  { timeout: 1_800_000 },
  async () => {
    const runs = await campaign('owner', false);
    console.log(`${HEADER}\n${row('all true', 'owner', runs)}`);
    expect(runs.filter((run) => !isNamed(run))).toEqual([]);
    expect(
      quantile(
        runs.map(({ ending }) => ending.steps),
        0.5,
      ),
    ).toBeLessThanOrEqual(8);
  },
);
