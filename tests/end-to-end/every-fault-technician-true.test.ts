import { expect, it } from 'vitest';
import { campaign, HEADER, isNamed, row } from '../truth/campaign.ts';

it(
  'should hardly miss a fault at any kind of pool for a technician who answers truthfully',
  { timeout: 1_800_000 },
  async () => {
    const runs = await campaign('technician', false, 5);
    console.log(`${HEADER}\n${row('all true', 'technician', runs)}`);
    const missed = runs.filter((run) => !isNamed(run));
    if (missed.length > 0) console.log('not named:', JSON.stringify(missed));
    expect(missed.length / runs.length).toBeLessThan(0.01);
  },
);
