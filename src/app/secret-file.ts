/** Settings that may lie in a file of their own, so that they show in no list of processes. */
import { readFileSync } from 'node:fs';

/** The variable itself, or what the file holds that its `_FILE` twin names. */
export function fromFile(
  name: string,
  environment: NodeJS.ProcessEnv,
  problems: string[],
): string | undefined {
  const file = environment[`${name}_FILE`];
  const value = environment[name];
  if (file === undefined) return value;
  if (value !== undefined) problems.push(`${name} and ${name}_FILE are both set; keep one of them`);
  try {
    return readFileSync(file, 'utf8').trim();
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unreadable';
    problems.push(`${name}_FILE: the file ${file} cannot be read (${code})`);
    return undefined;
  }
}
