/** `npm run backup -- FILE` and `npm run restore -- FILE`. */
import { parseArgs } from 'node:util';
import { translate } from '../language/texts.ts';
import { backUp, CopyRefused, restore } from '../store/backup.ts';
import { DEFAULT_DATABASE } from './config.ts';

const DATABASE = process.env.PADSIDE_DB ?? DEFAULT_DATABASE;

async function run(
  verb: string | undefined,
  file: string | undefined,
  evenIfNewer: boolean,
): Promise<string> {
  if ((verb !== 'backup' && verb !== 'restore') || file === undefined)
    return translate('en', 'app:copy.usage');
  if (verb === 'backup') {
    await backUp(DATABASE, file);
    return translate('en', 'app:copy.backed-up', { from: DATABASE, file });
  }
  const kept = restore(file, DATABASE, evenIfNewer, Date.now());
  const done = translate('en', 'app:copy.restored', { to: DATABASE, file });
  return kept === undefined ? done : `${done} ${translate('en', 'app:copy.kept', { kept })}`;
}

try {
  const { positionals, values } = parseArgs({
    allowPositionals: true,
    options: { 'even-if-newer': { type: 'boolean', default: false } },
  });
  const [verb, file] = positionals;
  process.stdout.write(`${await run(verb, file, values['even-if-newer'])}\n`);
  if (file === undefined) process.exitCode = 1;
} catch (error) {
  if (!(error instanceof CopyRefused)) throw error;
  process.stderr.write(`${translate('en', `app:copy.${error.code}`, error.facts)}\n`);
  process.exitCode = 1;
}
