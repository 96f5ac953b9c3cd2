/** The real program in a process of its own. */
import type { ChildProcessWithoutNullStreams } from 'node:child_process';
import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
/** Longer than any start, shorter than a test's patience. */
const LONGEST_RUN_MS = 15_000;

export interface Ended {
  code: number | null;
  out: string;
  err: string;
}

const program = ['node_modules/.bin/tsx', 'src/app/main.ts', '--jsonl', '--locale', 'en', '--role', 'owner'];

function collected(child: ChildProcessWithoutNullStreams): Promise<Ended> {
  let [out, err] = ['', ''];
  child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text));
  // The program may end before it has read all of its input.
  child.stdin.on('error', () => undefined);
  return new Promise((resolve) => child.on('close', (code) => resolve({ code, out, err })));
}

function finished(command: string, args: readonly string[], input: string | Buffer): Promise<Ended> {
  const child = spawn(command, args, {
    cwd: ROOT,
    detached: true,
    env: { ...process.env, PROGRAM: program.join(' ') },
  });
  // The whole group: the program is started by a process of its own and would outlive it.
  const end = setTimeout(() => {
    if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
  }, LONGEST_RUN_MS);
  const ended = collected(child).finally(() => clearTimeout(end));
  child.stdin.end(input);
  return ended;
}

/** Runs the program on the JSONL channel with this input to its end; a run without end is killed and has no code. */
export function run(input: string | Buffer, ...args: string[]): Promise<Ended> {
  const [command = '', ...rest] = program;
  return finished(command, [...rest, ...args], input);
}

/** Runs the program within a shell line; `$PROGRAM` stands for it. */
export function runInShell(line: string, input = ''): Promise<Ended> {
  return finished('sh', ['-c', line], input);
}

export type Heard = Record<string, unknown>;

export interface Running {
  /** Sends a line and gives back what comes until the turn's end. */
  send(line: unknown): Promise<Heard[]>;
  /** Ends the process without a chance to tidy up. */
  kill(): Promise<void>;
}

/** Starts the program on a database file and keeps talking with it. */
export function start(database: string): Running {
  // Without the runner's own process in between, so that the kill hits the program itself.
  const args = ['--import', 'tsx', ...program.slice(1), '--db', database];
  const child = spawn(process.execPath, args, { cwd: ROOT });
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  return {
    send: async (line) => {
      child.stdin.write(`${JSON.stringify(line)}\n`);
      const heard: Heard[] = [];
      for (let next = await lines.next(); next.done !== true; next = await lines.next()) {
        const message = JSON.parse(next.value) as Heard;
        heard.push(message);
        if (message.kind === 'turn-end') return heard;
      }
      throw new Error('The program ended in the middle of a turn');
    },
    kill: () =>
      new Promise((resolve) => {
        child.on('close', () => resolve());
        child.kill('SIGKILL');
      }),
  };
}

/** The messages in what the program wrote. Throws where a line is not JSON. */
export function messagesIn(out: string): Heard[] {
  return out
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as Heard);
}

/** Whether something looks like the trace of an uncaught error. */
export function looksLikeTrace(text: string): boolean {
  return /\n\s+at \S+ ?\(?.*:\d+:\d+\)?|node:internal|^Node\.js v/m.test(text);
}
