/** What the small programs of the command line share: which database they work on, what they print and how they end. */
import { translate } from '../language/texts.ts';
import { StoreUnusable } from '../store/database.ts';
import type { Store } from '../store/store.ts';
import { DEFAULT_DATABASE } from './config.ts';

/** What was asked for cannot be done; the message tells the person why and what to do. */
export class Refused extends Error {
  override readonly name = 'Refused';
}

/** Ends a program with a text of `locales/*\/app.json`. */
export function refuse(key: string, facts: Record<string, string> = {}): never {
  throw new Refused(translate('en', `app:${key}`, facts));
}

/** The database file that was named, by option or by environment, or the usual one. */
export function databaseFile(named?: string): string {
  return named ?? process.env.PADSIDE_DB ?? DEFAULT_DATABASE;
}

/** The company of this name, or of this id where two share a name. Refuses where there is none, or more than one. */
export function companyCalled(name: string, { companies }: Store): { id: string; name: string } {
  const trimmed = name.trim();
  const called = companies.called(trimmed);
  const [company] = called;
  if (called.length > 1)
    return refuse('company.several-called', { company: trimmed, ids: called.map(({ id }) => id).join(', ') });
  return company ?? companies.byId(trimmed) ?? refuse('company.none-called', { company: trimmed });
}

function isOfOptions(error: unknown): error is Error {
  return error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS');
}

function inWords(error: unknown): string {
  if (error instanceof Refused) return error.message;
  if (error instanceof StoreUnusable) return translate('en', 'app:store-readonly', { reason: error.reason });
  if (isOfOptions(error)) return error.message;
  throw error;
}

/** Runs a program and prints what it gives; where it is refused or the database cannot be used, why, with exit code 1. */
export async function printed(run: () => string | Promise<string>): Promise<void> {
  try {
    process.stdout.write(await run());
  } catch (error) {
    process.stderr.write(`${inWords(error)}\n`);
    process.exitCode = 1;
  }
}
