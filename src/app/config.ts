/** Configuration from the command line and the environment, checked whole: every problem is listed at once. */
import { parseArgs } from 'node:util';
import { z } from 'zod';
import type { Locale } from '../dialogues/event.ts';
import { LOCALES } from '../dialogues/event.ts';
import type { Role } from '../knowledge/schema.ts';
import { ROLES } from '../knowledge/schema.ts';

export interface Config {
  channel: 'terminal' | 'jsonl';
  /** Database file, or `:memory:`. */
  database: string;
  locale: Locale | undefined;
  role: Role | undefined;
  /** Messages carry the suspects with their probabilities. */
  explain: boolean;
  /** File that log lines are added to; none where undefined. */
  logFile: string | undefined;
  /** A fresh database starts with the demo pool. */
  demo: boolean;
}

/** The configuration has problems; each is one line for the person who starts the program. */
export class ConfigInvalid extends Error {
  override readonly name = 'ConfigInvalid';
  constructor(readonly problems: readonly string[]) {
    super(problems.join('\n'));
  }
}

const DEFAULT_DATABASE = 'data/padside.sqlite';

const schema = z.object({
  jsonl: z.boolean().default(false),
  terminal: z.boolean().default(false),
  explain: z.boolean().default(false),
  db: z.string().min(1).optional(),
  role: z.enum(ROLES).optional(),
  locale: z.enum(LOCALES).optional(),
});

function optionsOf(args: readonly string[]): unknown {
  try {
    return parseArgs({
      args: [...args],
      options: {
        jsonl: { type: 'boolean' },
        terminal: { type: 'boolean' },
        explain: { type: 'boolean' },
        db: { type: 'string' },
        role: { type: 'string' },
        locale: { type: 'string' },
      },
    }).values;
  } catch (error) {
    throw new ConfigInvalid([error instanceof Error ? error.message : String(error)]);
  }
}

/** Reads the configuration. Throws ConfigInvalid with every problem. */
export function readConfig(args: readonly string[], environment: NodeJS.ProcessEnv): Config {
  const parsed = schema.safeParse(optionsOf(args));
  if (!parsed.success)
    throw new ConfigInvalid(
      parsed.error.issues.map((issue) => `--${issue.path.join('.')}: ${issue.message}`),
    );
  const { jsonl, db, role, locale, explain } = parsed.data;
  const file = db ?? environment.PADSIDE_DB;
  return {
    channel: jsonl ? 'jsonl' : 'terminal',
    database: file ?? (jsonl ? ':memory:' : DEFAULT_DATABASE),
    locale,
    role,
    explain,
    logFile: environment.PADSIDE_LOG,
    demo: !jsonl && file === undefined,
  };
}
