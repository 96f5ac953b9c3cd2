/** How much memory the programs take that listen and speak. */
import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { ACOUSTIC_MODEL, PHONES, prepared, withSound } from '../../src/media/sphinx/decode.ts';
import { DICTIONARY } from '../../src/media/sphinx/decode.ts';
import { readDictionary } from '../../src/media/sphinx/dictionary.ts';
import { grammarFor, wordsIn } from '../../src/media/sphinx/grammar.ts';
import { questionFor } from './questions.ts';
import { said } from './voices.ts';

const run = promisify(execFile);

/** Prints the largest resident size of its children, in kilobytes (getrusage). */
const MEASURE = `import resource, subprocess, sys
subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)`;

async function peakMegabytes(command: string, ...args: string[]): Promise<string> {
  const { stdout } = await run('python3', ['-c', MEASURE, command, ...args]);
  return `${(Number(stdout) / 1024).toFixed(0)} MB`;
}

/** A line with the peak of each program for one note. */
export async function peakMemories(folder: string): Promise<string> {
  const dictionary = await readDictionary(DICTIONARY);
  const grammar = grammarFor(questionFor('filter-pressure'), (word) => dictionary.has(word));
  const speech = await said('flite slt', 'filter twenty two vacuum nine', join(folder, 'memory'));
  const work = await prepared(folder, grammar, dictionary.linesFor(wordsIn(grammar)));
  const { grammar: rules, dictionary: words } = work;
  const { name } = await withSound(work, 'memory-note', speech);
  const common = ['-hmm', ACOUSTIC_MODEL, '-adcin', 'yes', '-cepdir', folder, '-cepext', '.raw'];
  const list = ['-ctl', join(folder, `${name}.list`), '-compallsen', 'yes', '-logfn', '/dev/null'];
  const decode = (...search: string[]): Promise<string> =>
    peakMegabytes('pocketsphinx_batch', ...common, ...list, ...search);
  return [
    `words ${await decode('-jsgf', rules, '-dict', words)}`,
    `phones ${await decode('-allphone', PHONES, '-allphone_ci', 'yes', '-lw', '1')}`,
  ].join(', ');
}
