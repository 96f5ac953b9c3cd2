/** Plays every fault at every kind of pool and prints the table of figures; `--write` puts it into the README. */
import { readFileSync, writeFileSync } from 'node:fs';
import { ROLES } from '../src/knowledge/schema.ts';
import { campaign, HEADER, row, SEED } from '../tests/truth/campaign.ts';

const README = new URL('../README.md', import.meta.url);
const MARKS = { from: '<!-- figures -->', to: '<!-- /figures -->' };

const rows: string[] = [];
for (const role of ROLES) {
  rows.push(row('all true', role, await campaign(role, false)));
  rows.push(row(`one wrong, two unsure (seed ${SEED})`, role, await campaign(role, true)));
}
const table = [HEADER, ...rows].join('\n');
process.stdout.write(`${table}\n`);
if (process.argv.includes('--write')) {
  const readme = readFileSync(README, 'utf8');
  const before = readme.slice(0, readme.indexOf(MARKS.from) + MARKS.from.length);
  writeFileSync(README, `${before}\n\n${table}\n\n${readme.slice(readme.indexOf(MARKS.to))}`);
}
