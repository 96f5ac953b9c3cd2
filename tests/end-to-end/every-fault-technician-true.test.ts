import { expect, it } from 'vitest';
import { campaign, HEADER, isNamed, row } from '../truth/campaign.ts';

it(
  'should name every fault at every kind of pool for a technician who answers truthfully',
  { timeout: 1_800_000 },
  async () => {
    const runs = await campaign('technician', false);
    console.log(`${HEADER}\n${row('all true', 'technician', runs)}`);
    expect(runs.filter((run) => !isNamed(run))).toEqual([]);
  },
);
