/** The record from the command line: `export` prints a pool's, `erase` removes a person with all that is theirs. */
import { existsSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { translate } from '../language/texts.ts';
import { keptNotes } from '../media/kept-notes.ts';
import { openDatabase } from '../store/database.ts';
import { asCsv, exportedPool, poolsOnRecord } from '../store/export.ts';
import { changeWriter } from '../store/changes.ts';
import { openStore } from '../store/store.ts';
import { companyCalled, databaseFile, printed, refuse } from './command-line.ts';
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

const file = databaseFile(values.db);

function exportedCompany(name: string): string {
  const store = openStore(file);
  try {
    return store.pools.written(companyCalled(name, store).id);
  } finally {
    store.close();
  }
}

function exported(): string {
  if (values.company !== undefined) return exportedCompany(values.company);
  const database = openDatabase(file);
  if (values.pool === undefined) {
    const known = poolsOnRecord(database).map(
      ({ id, name, person }) => `${String(id)}\t${String(name)}\t${String(person)}\n`,
    );
    process.stdout.write(known.join(''));
    return refuse('records.which-pool');
  }
  const record = exportedPool(database, values.pool);
  if (record === undefined) return refuse('records.no-pool', { pool: values.pool });
  return values.csv === true ? asCsv(record) : `${JSON.stringify(record, null, 2)}\n`;
}

async function erased(): Promise<string> {
  const { person } = values;
  if (person === undefined) return refuse('records.which-person');
  const database = openDatabase(file);
  const known = database.prepare('SELECT 1 FROM person WHERE id = ?').get(person);
  if (known === undefined) return refuse('records.no-person', { person });
  database.transaction(() => changeWriter(database)({ do: 'erase-person' }, person, Date.now()))();
  await keptNotes(voiceConfig(process.env, file).config.folder, 0).forget(person);
  return `${translate('en', 'app:records.erased', { person })}\n`;
}

await printed(() => {
  if (!existsSync(file)) return refuse('records.no-database', { file });
  return positionals[0] === 'erase' ? erased() : exported();
});
