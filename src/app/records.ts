/** The record from the command line: `export` prints a pool's, `erase` removes a person with all that is theirs. */
import { existsSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { translate } from '../language/texts.ts';
import { keptNotes } from '../media/kept-notes.ts';
import { openDatabase, StoreUnusable } from '../store/database.ts';
import { asCsv, exportedPool, poolsOnRecord } from '../store/export.ts';
import { changeWriter } from '../store/changes.ts';
import { openStore } from '../store/store.ts';
import { DEFAULT_DATABASE } from './config.ts';
import { voiceConfig } from './voice-config.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    pool: { type: 'string' },
    person: { type: 'string' },
    company: { type: 'string' },
    csv: { type: 'boolean' },
    db: { type: 'string' },
  },
});

function fail(key: string, facts: Record<string, string> = {}): never {
  process.stderr.write(`${translate('en', `app:records.${key}`, facts)}\n`);
  process.exit(1);
}

function print(text: string): void {
  process.stdout.write(text);
}

const file = values.db ?? process.env.PADSIDE_DB ?? DEFAULT_DATABASE;
if (!existsSync(file)) fail('no-database', { file });

function exportCompany(name: string): void {
  const store = openStore(file);
  const [company] = store.companies.called(name);
  if (company === undefined) fail('no-company', { company: name });
  print(store.pools.written(company.id));
  store.close();
}

function exportPool(): void {
  if (values.company !== undefined) {
    exportCompany(values.company);
    return;
  }
  const database = openDatabase(file);
  if (values.pool === undefined) {
    const known = poolsOnRecord(database).map(
      ({ id, name, person }) => `${String(id)}\t${String(name)}\t${String(person)}\n`,
    );
    print(known.join(''));
    fail('which-pool');
  }
  const record = exportedPool(database, values.pool);
  if (record === undefined) fail('no-pool', { pool: values.pool });
  print(values.csv === true ? asCsv(record) : `${JSON.stringify(record, null, 2)}\n`);
}

async function erasePerson(): Promise<void> {
  if (values.person === undefined) fail('which-person');
  const database = openDatabase(file);
  const known = database.prepare('SELECT 1 FROM person WHERE id = ?').get(values.person);
  if (known === undefined) fail('no-person', { person: values.person });
  database.transaction(() =>
    changeWriter(database)({ do: 'erase-person' }, values.person ?? '', Date.now()),
  )();
  await keptNotes(voiceConfig(process.env, file).config.folder, 0).forget(values.person);
  print(`${translate('en', 'app:records.erased', { person: values.person })}\n`);
}

try {
  if (positionals[0] === 'erase') await erasePerson();
  else exportPool();
} catch (error) {
  if (!(error instanceof StoreUnusable)) throw error;
  process.stderr.write(`${translate('en', 'app:store-readonly', { reason: error.reason })}\n`);
  process.exitCode = 1;
}
