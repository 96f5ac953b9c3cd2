/** `npm run import -- --company "NAME" FILE [--yes]`: what a table of pools would change; with `--yes` it is taken. */
import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import type { ImportPlan } from '../dialogues/company/company.ts';
import { problemLine } from '../dialogues/company/import.ts';
import { words } from '../language/render.ts';
import { translate } from '../language/texts.ts';
import type { Store } from '../store/store.ts';
import { openStore } from '../store/store.ts';
import { companyCalled, databaseFile, printed, Refused, refuse } from './command-line.ts';

/** How often the progress is written, lines. */
const EVERY = 1000;

function contentOf(file: string): Uint8Array {
  try {
    return readFileSync(file);
  } catch {
    return refuse('import.no-file', { file });
  }
}

function refusedLines({ problems, problemCount }: ImportPlan): string {
  const more = problemCount - problems.length;
  return [
    translate('en', 'company:import.refused', { count: problemCount }),
    ...problems.map((problem) => words(problemLine(problem), 'en')),
    ...(more > 0 ? [translate('en', 'company:import.more', { count: more })] : []),
  ].join('\n');
}

function counts({ lines, fresh, changed, same }: ImportPlan): Record<string, number> {
  return { lines, fresh, changed, same };
}

/** Shows how far it has come, on one line of a terminal. */
function progress(lines: number): (n: number) => void {
  return (n) => {
    if (n % EVERY === 0 || n === lines)
      process.stderr.write(
        `${translate('en', 'app:import.progress', { n, lines })}${process.stderr.isTTY ? '\r' : '\n'}`,
      );
  };
}

function taken(content: Uint8Array, company: string, store: Store, yes: boolean): string {
  const plan = store.pools.plan(company, content);
  if (plan.problemCount > 0) throw new Refused(refusedLines(plan));
  if (!yes) return translate('en', 'app:import.preview', counts(plan));
  const toDo = plan.fresh + plan.changed;
  store.together(() => store.pools.take(company, content, randomUUID(), Date.now(), progress(toDo)));
  return translate('en', 'company:import.done', counts(plan));
}

function run(args: readonly string[]): string {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      company: { type: 'string' },
      yes: { type: 'boolean', default: false },
      db: { type: 'string' },
    },
  });
  const [file] = positionals;
  if (file === undefined || values.company === undefined) return refuse('import.usage');
  const content = contentOf(file);
  const store = openStore(databaseFile(values.db));
  try {
    return taken(content, companyCalled(values.company, store).id, store, values.yes);
  } finally {
    store.close();
  }
}

await printed(
  () => `${run(process.argv.slice(2))}
`,
);
