/** `npm run -s bench:import [-- COUNT]`: how long a table of so many invented pools takes to be read and taken. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openStore } from '../src/store/store.ts';

const COUNT = Number(process.argv[2] ?? 50_000);
const KINDS = ['suction', 'pressure-booster', 'robotic', ''] as const;
const FILTERS = ['sand', 'cartridge', 'de'] as const;

function lineOf(n: number): string {
  const cleaner = KINDS[n % KINDS.length];
  return [
    `P-${n}`,
    `Pool of garden ${n}`,
    `"${n} Invented Way, Lot ${n % 7}"`,
    n % 3 === 0 ? 'es' : 'en',
    cleaner,
    cleaner === 'suction' ? 'skimmer' : '',
    'single-speed',
    FILTERS[n % FILTERS.length],
    `${10_000 + (n % 200) * 100} gal`,
    `${12 + (n % 9)} psi`,
    `${4 + (n % 6)} inHg`,
  ].join(',');
}

const HEADINGS =
  'reference,name,address,language,cleaner,connection,pump,filter,volume,clean-filter-pressure,clean-pump-vacuum';
const content = Buffer.from([HEADINGS, ...Array.from({ length: COUNT }, (_, n) => lineOf(n))].join('\r\n'));
const folder = mkdtempSync(join(tmpdir(), 'padside-import-'));
const store = openStore(join(folder, 'bench.sqlite'));
store.companies.create({ id: 'company', name: 'Invented company', locale: 'en' }, Date.now());

function timed<T>(what: string, work: () => T): T {
  const began = performance.now();
  const result = work();
  console.log(`${what.padEnd(28)} ${((performance.now() - began) / 1000).toFixed(2)} s`);
  return result;
}

console.log(`${COUNT} pools, ${(content.length / 1e6).toFixed(1)} MB`);
const plan = timed('preview', () => store.pools.plan('company', content));
timed('taking all', () => store.together(() => store.pools.take('company', content, 'pool', Date.now())));
const again = timed('the same file again', () => store.pools.plan('company', content));
const written = timed('export', () => store.pools.written('company'));
const back = timed('preview of the export', () => store.pools.plan('company', Buffer.from(written)));
console.log({ fresh: plan.fresh, problems: plan.problemCount, same: again.same, back: back.problemCount });
store.close();
rmSync(folder, { recursive: true });
