/** The bot as a process of its own, bundled once so that it starts fast. */
import type { ChildProcess } from 'node:child_process';
import { spawn } from 'node:child_process';
import { mkdtempSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

/** Bundles the program into a folder where it finds its locales and packages. Returns the folder. */
export function bundled(): string {
  const folder = mkdtempSync(join(tmpdir(), 'padside-bundle-'));
  buildSync({
    entryPoints: [join(ROOT, 'src/app/main.ts')],
    outfile: join(folder, 'src/app/main.mjs'),
    bundle: true,
    platform: 'node',
    format: 'esm',
    minifyWhitespace: true,
    // A package of the client knows a class by its name.
    keepNames: true,
    external: ['better-sqlite3', '@resvg/resvg-js'],
    // Packages of the older module format look for these.
    banner: {
      js: `import { createRequire as requireFor } from 'node:module'; const require = requireFor(import.meta.url);
        const __filename = import.meta.filename, __dirname = import.meta.dirname;`,
    },
    logLevel: 'error',
  });
  for (const name of ['locales', 'node_modules', 'package.json'])
    symlinkSync(join(ROOT, name), join(folder, name));
  return folder;
}

export interface Ended {
  code: number | null;
  signal: NodeJS.Signals | null;
  /** What it wrote to standard error. */
  errors: string;
}

export interface BotProcess {
  child: ChildProcess;
  ended: Promise<Ended>;
}

/** Starts the bundled program with these settings. */
export function startBot(folder: string, settings: Record<string, string>): BotProcess {
  const child = spawn(process.execPath, [join(folder, 'src/app/main.mjs')], {
    env: { PATH: process.env.PATH, PADSIDE_HEALTH_PORT: '0', ...settings },
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let errors = '';
  child.stderr.on('data', (chunk: Buffer) => (errors += chunk.toString('utf8')));
  const ended = new Promise<Ended>((resolve) =>
    child.on('close', (code, signal) => resolve({ code, signal, errors })),
  );
  return { child, ended };
}
