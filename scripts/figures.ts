/** Plays every fault at every kind of pool and prints the table of figures. */
import { ROLES } from '../src/knowledge/schema.ts';
import { campaign, HEADER, row, SEED } from '../tests/truth/campaign.ts';

const rows: string[] = [];
for (const role of ROLES) {
  rows.push(row('all true', role, await campaign(role, false)));
  rows.push(row(`one wrong, two unsure (seed ${SEED})`, role, await campaign(role, true)));
}
const table = [HEADER, ...rows].join('\n');
process.stdout.write(`${table}\n`);
