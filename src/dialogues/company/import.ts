/** Taking a company's pools from a file: what it would change, then yes or no. */
import { permit } from '../access.ts';
import type { Context, Flow, ImportCounts, Move } from '../conversation.ts';
import type { Understood } from '../event.ts';
import type { Say, Text } from '../say.ts';
import { info, question, text } from '../say.ts';
import { NO, YES } from '../words.ts';
import type { ImportPlan, LineProblem } from './company.ts';
import type { Permit } from './permit.ts';
import { saidAndBack } from './words.ts';

type ImportFlow = Extract<Flow, { at: 'import' }>;

const PROBLEMS_SHOWN = 10;

/** How a file is sent and what it holds. */
export function howToImport(then: Flow): Move {
  return saidAndBack(then, info('import', text('company:import.how'), text('company:import.columns')));
}

/** A line with a problem, and what to do about it. */
export function problemLine({ line, column, code, value, allowed }: LineProblem): Text {
  return text(`company:import.problem.${code}`, { line, column, value, allowed });
}

/** What is wrong with a file, the first problems of it line by line. */
export function problemsSay({ problems, problemCount }: ImportPlan): Say {
  const more = problemCount - Math.min(problems.length, PROBLEMS_SHOWN);
  return info(
    'import-problems',
    text('company:import.refused', { count: problemCount }),
    ...problems.slice(0, PROBLEMS_SHOWN).map(problemLine),
    ...(more > 0 ? [text('company:import.more', { count: more })] : []),
  );
}

function countsOf({ lines, fresh, changed, same, examples }: ImportPlan): ImportCounts {
  return { lines, fresh, changed, same, examples };
}

/** Looks into a file and tells what it would change. */
export function previewed(upload: string, given: Permit, then: Flow, { facts }: Context): Move {
  const plan = facts.office.plan(given, upload);
  if (plan === undefined) return saidAndBack(then, info('import-gone', text('company:import.gone')));
  const forget = { do: 'forget-upload', upload } as const;
  if (plan.problemCount > 0) return { ...saidAndBack(then, problemsSay(plan)), changes: [forget] };
  if (plan.fresh + plan.changed === 0)
    return {
      ...saidAndBack(then, info('import-same', text('company:import.same', { count: plan.same }))),
      changes: [forget],
    };
  return { flow: { at: 'import', company: given.company.id, upload, counts: countsOf(plan), then } };
}

/** What the file would change: to be taken or not. */
export function askImport({ counts, company }: ImportFlow, { facts }: Context): Say[] {
  const { examples, ...numbers } = counts;
  const name = permit({ flow: 'import' }, company, facts)?.company.name ?? '';
  const items = examples.map((example) => text('dialogue:pool.named', { name: example }));
  const ask = text('company:import.ask', { ...numbers, company: name, items });
  return [question('import', ask, [YES, NO])];
}

/** Takes the file, or leaves it. */
export function answerImport(flow: ImportFlow, event: Understood, { facts }: Context): Move | undefined {
  const { company, upload, counts, then } = flow;
  if (event.kind !== 'answer' || permit({ flow: 'import' }, company, facts) === undefined) return undefined;
  if (event.option === 'no')
    return {
      ...saidAndBack(then, info('import-left', text('company:import.left'))),
      changes: [{ do: 'forget-upload', upload }],
    };
  if (event.option !== 'yes') return undefined;
  const done = text('company:import.done', {
    fresh: counts.fresh,
    changed: counts.changed,
    same: counts.same,
  });
  return {
    ...saidAndBack(then, info('imported', done)),
    changes: [{ do: 'import-pools', company, upload }],
  };
}
