/** Running another program on input that nobody vouches for: bounded in time, memory and what it writes. */
import { spawn } from 'node:child_process';
import { CHILD_MEMORY_BYTES, LARGEST_DECODED_BYTES, MOST_PRINTED_BYTES } from './limits.ts';

export interface Bounds {
  /** Wall-clock time, milliseconds. */
  timeMs: number;
  /** Largest file that the program may write, bytes. */
  fileBytes?: number;
  /** Folder for whatever it keeps beside its work; it is told of no other. */
  home?: string;
  /** Given to the program on its standard input. */
  input?: string;
}

export type Ran =
  | { came: 'ended'; code: number; printed: Buffer }
  /** Ended by a signal: a limit was passed or the program crashed. */
  | { came: 'broken'; signal: string }
  | { came: 'slow' }
  /** The program is not installed. */
  | { came: 'missing' };

/** Exit code with which `prlimit` says that there is no such program. */
const NOT_FOUND = 127;

/** The group, so that nothing it started is left. It may have ended by itself in this very moment. */
function killGroup(pid: number | undefined): void {
  if (pid === undefined) return;
  try {
    process.kill(-pid, 'SIGKILL');
  } catch {
    return;
  }
}

function limited(command: string, args: readonly string[], { timeMs, fileBytes }: Bounds): string[] {
  return [
    `--as=${CHILD_MEMORY_BYTES}`,
    `--cpu=${Math.ceil(timeMs / 1000) + 1}`,
    `--fsize=${fileBytes ?? LARGEST_DECODED_BYTES}`,
    '--core=0',
    '--',
    command,
    ...args,
  ];
}

/** The child sees nothing of this process's environment: it may hold a token. */
const ENVIRONMENT = { PATH: '/usr/local/bin:/usr/bin:/bin', LC_ALL: 'C.UTF-8' };

function environmentIn(home: string | undefined): NodeJS.ProcessEnv {
  return home === undefined
    ? ENVIRONMENT
    : { ...ENVIRONMENT, HOME: home, TMPDIR: home, XDG_RUNTIME_DIR: home };
}

/**
 * Runs a program under `prlimit` until it ends or its time is up, when it is killed with all it started. What it
 * prints beyond `MOST_PRINTED_BYTES` is dropped. Never rejects.
 */
export function runBounded(command: string, args: readonly string[], bounds: Bounds): Promise<Ran> {
  return new Promise((resolve) => {
    const child = spawn('prlimit', limited(command, args, bounds), {
      detached: true,
      env: environmentIn(bounds.home),
      stdio: ['pipe', 'pipe', 'ignore'],
    });
    let isSlow = false;
    const timer = setTimeout(() => {
      isSlow = true;
      killGroup(child.pid);
    }, bounds.timeMs);
    const printed: Buffer[] = [];
    let size = 0;
    child.stdout.on('data', (chunk: Buffer) => {
      if (size < MOST_PRINTED_BYTES) printed.push(chunk);
      size += chunk.length;
    });
    child.on('error', () => {
      clearTimeout(timer);
      resolve({ came: 'missing' });
    });
    child.on('close', (code, signal) => {
      clearTimeout(timer);
      if (isSlow) resolve({ came: 'slow' });
      else if (code === null) resolve({ came: 'broken', signal: signal ?? 'unknown' });
      else if (code === NOT_FOUND) resolve({ came: 'missing' });
      else resolve({ came: 'ended', code, printed: Buffer.concat(printed) });
    });
    // The program may end before it has read all of its input.
    child.stdin.on('error', () => undefined);
    child.stdin.end(bounds.input ?? '');
  });
}
