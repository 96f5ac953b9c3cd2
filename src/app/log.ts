/** What may stand in a log line: never a token, a name or a text. */
import { createHmac } from 'node:crypto';

/** A short name for a conversation that only the holder of the key can tie to a person. */
export function conversationHash(key: string): (conversation: string) => string {
  return (conversation) => createHmac('sha256', key).update(conversation).digest('hex').slice(0, 12);
}

function fieldOf(error: object, name: string): unknown {
  return name in error ? (error as Record<string, unknown>)[name] : undefined;
}

/** The facts of an error without its message, which may quote what a person wrote. */
export function errorFacts(error: unknown): Record<string, unknown> {
  if (!(error instanceof Error)) return { error: typeof error };
  const frames = (error.stack ?? '').split('\n').filter((line) => /^\s+at /.test(line));
  const facts = ['code', 'method', 'error_code'].map((name) => [name, fieldOf(error, name)] as const);
  return {
    error: error.name,
    ...Object.fromEntries(facts.filter(([, value]) => value !== undefined)),
    at: frames.slice(0, 4).map((line) => line.trim().replace(/file:\/\/\S*\/(src|node_modules)\//, '$1/')),
  };
}
