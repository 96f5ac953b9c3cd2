/** `npm run backup -- FILE` and `npm run restore -- FILE`. */
import { parseArgs } from 'node:util';
import { translate } from '../language/texts.ts';
import { backUp, CopyRefused, restore } from '../store/backup.ts';
import { databaseFile, printed, refuse } from './command-line.ts';

const DATABASE = databaseFile();

async function run(
  verb: string | undefined,
  file: string | undefined,
  evenIfNewer: boolean,
): Promise<string> {
  if ((verb !== 'backup' && verb !== 'restore') || file === undefined) return refuse('copy.usage');
  if (verb === 'backup') {
    await backUp(DATABASE, file);
    return translate('en', 'app:copy.backed-up', { from: DATABASE, file });
  }
  const kept = restore(file, DATABASE, evenIfNewer, Date.now());
  const done = translate('en', 'app:copy.restored', { to: DATABASE, file });
  return kept === undefined ? done : `${done} ${translate('en', 'app:copy.kept', { kept })}`;
}

const { positionals, values } = parseArgs({
  allowPositionals: true,
  options: { 'even-if-newer': { type: 'boolean', default: false } },
});
const [verb, file] = positionals;

await printed(async () => {
  try {
    return `${await run(verb, file, values['even-if-newer'])}\n`;
  } catch (error) {
    if (error instanceof CopyRefused) return refuse(`copy.${error.code}`, error.facts);
    throw error;
  }
});
