// Runs a command of the project, first installing the packages if this clone has none or has old ones.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const installed = join(root, 'node_modules', '.package-lock.json');
const wanted = join(root, 'package-lock.json');

function packagesAreCurrent() {
  return existsSync(installed) && statSync(installed).mtimeMs >= statSync(wanted).mtimeMs;
}

function run(command, args, stdio) {
  const path = join(root, 'node_modules', '.bin') + delimiter + process.env.PATH;
  const windows = process.platform === 'win32';
  const result = spawnSync(command, args, {
    cwd: root,
    stdio,
    shell: windows,
    env: { ...process.env, PATH: path },
  });
  if (result.error) throw result.error;
  if (result.signal) process.kill(process.pid, result.signal);
  return result.status ?? 1;
}

if (!packagesAreCurrent()) {
  process.stderr.write('First start: installing packages. This takes about a minute.\n');
  const status = run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], ['ignore', 2, 2]);
  if (status !== 0) {
    process.stderr.write('The packages could not be installed. Check the network, then try again.\n');
    process.exit(status);
  }
}
const [command, ...args] = process.argv.slice(2);
process.exit(run(command, args, 'inherit'));
