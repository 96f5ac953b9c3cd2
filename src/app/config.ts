/** Configuration from the command line and the environment, checked whole: every problem is listed at once. */
import { parseArgs } from 'node:util';
import { z } from 'zod';
import type { Locale } from '../dialogues/event.ts';
import { LOCALES } from '../dialogues/event.ts';
import type { Role } from '../knowledge/schema.ts';
import { ROLES } from '../knowledge/schema.ts';
import type { TelegramConfig } from './telegram-config.ts';
import { telegramConfig } from './telegram-config.ts';
import type { VoiceConfig } from './voice-config.ts';
import { voiceConfig } from './voice-config.ts';

export interface Config {
  channel: 'terminal' | 'jsonl' | 'telegram';
  /** Database file, or `:memory:`. */
  database: string;
  locale: Locale | undefined;
  role: Role | undefined;
  /** Messages carry the suspects with their probabilities. */
  explain: boolean;
  /** File that log lines are added to; where undefined none, or standard output when serving a platform. */
  logFile: string | undefined;
  /** A fresh database starts with the demo pool. */
  demo: boolean;
  /** Present where the platform is served. */
  telegram: TelegramConfig | undefined;
  voice: VoiceConfig;
}

/** The configuration has problems; each is one line for the person who starts the program. */
export class ConfigInvalid extends Error {
  override readonly name = 'ConfigInvalid';
  constructor(readonly problems: readonly string[]) {
    super(problems.join('\n'));
  }
}

export const DEFAULT_DATABASE = 'data/padside.sqlite';

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

/** An empty variable is one that is not set. */
function given(environment: NodeJS.ProcessEnv): NodeJS.ProcessEnv {
  return Object.fromEntries(Object.entries(environment).filter(([, value]) => value !== ''));
}

/** The database file, or `:memory:`. */
function databaseOf(options: z.infer<typeof schema> | undefined, environment: NodeJS.ProcessEnv): string {
  const file = options?.db ?? environment.PADSIDE_DB;
  return file ?? (options?.jsonl === true ? ':memory:' : DEFAULT_DATABASE);
}

/** Reads the configuration. Throws ConfigInvalid with every problem. */
export function readConfig(args: readonly string[], everything: NodeJS.ProcessEnv): Config {
  const environment = given(everything);
  const parsed = schema.safeParse(optionsOf(args));
  const problems = parsed.success
    ? []
    : parsed.error.issues.map((issue) => `--${issue.path.join('.')}: ${issue.message}`);
  const isLocal = parsed.success && (parsed.data.jsonl || parsed.data.terminal);
  const platform = isLocal ? { problems: [] } : telegramConfig(environment);
  const database = databaseOf(parsed.data, environment);
  const voice = voiceConfig(environment, database);
  problems.push(...platform.problems, ...voice.problems);
  if (!parsed.success || problems.length > 0) throw new ConfigInvalid(problems);
  const { jsonl, db, role, locale, explain } = parsed.data;
  const { config: telegram } = platform;
  const file = db ?? environment.PADSIDE_DB;
  return {
    channel: jsonl ? 'jsonl' : telegram === undefined ? 'terminal' : 'telegram',
    database,
    locale,
    role,
    explain,
    logFile: environment.PADSIDE_LOG,
    demo: !jsonl && telegram === undefined && file === undefined,
    telegram,
    voice: voice.config,
  };
}
