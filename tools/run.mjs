// Entry of every npm script. Plain JavaScript without dependencies, so that it runs on the Node
// that the machine already has; it installs what the verb needs and goes on under the pinned Node.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const modules = join(root, 'node_modules');
const lockDir = join(root, '.install-lock');
const stampFile = join(modules, '.gapline-install');
const STALE_LOCK_MS = 600_000;

/** Which script each verb runs, and whether it needs the development packages. */
const verbs = {
  start: { dev: false, script: 'server/src/start.ts' },
  cli: { dev: false, script: 'cli/src/main.ts' },
  dev: { dev: true, script: 'tools/dev.ts' },
  test: { dev: true, script: 'tools/test.ts' },
  check: { dev: true, script: 'tools/check.ts' },
  bench: { dev: true, script: 'tools/bench.ts' },
};

const nap = (ms) => Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
const wanted = createHash('sha256')
  .update(readFileSync(join(root, 'package-lock.json')))
  .digest('hex');

/** True when node_modules already holds what is asked: the full set also serves a plain start. */
function fresh(dev) {
  if (!existsSync(stampFile)) return false;
  const stamp = readFileSync(stampFile, 'utf8').trim();
  return stamp === `${wanted} full` || (!dev && stamp === `${wanted} run`);
}

function takeLock(dev) {
  for (;;) {
    try {
      mkdirSync(lockDir);
      return true;
    } catch {
      if (fresh(dev)) return false;
      const age = Date.now() - (statSync(lockDir, { throwIfNoEntry: false })?.mtimeMs ?? Date.now());
      if (age > STALE_LOCK_MS) rmSync(lockDir, { recursive: true, force: true });
      nap(500);
    }
  }
}

function install(dev) {
  if (fresh(dev) || !takeLock(dev)) return;
  try {
    if (fresh(dev)) return;
    process.stderr.write(`Gapline: installing ${dev ? 'all' : 'the'} packages (once, about half a minute) ...\n`);
    const npm = process.env.npm_execpath;
    const viaNode = npm?.endsWith('.js');
    const args = ['ci', '--loglevel=error', '--no-fund', '--no-audit', ...(dev ? ['--include=dev'] : ['--omit=dev'])];
    const done = spawnSync(viaNode ? process.execPath : 'npm', [...(viaNode ? [npm] : []), ...args], {
      cwd: root,
      stdio: ['ignore', process.stderr, 'inherit'],
      shell: process.platform === 'win32' && !viaNode,
      env: { ...process.env, NODE_ENV: '' },
    });
    if (done.status !== 0) {
      // The exit skips `finally`: a lock left behind would hold up the next try for ten minutes.
      rmSync(lockDir, { recursive: true, force: true });
      process.stderr.write(
        'Gapline: the packages could not be installed. Is the npm registry reachable? Run the same command again.\n',
      );
      process.exit(done.status ?? 1);
    }
    writeFileSync(stampFile, `${wanted} ${dev ? 'full' : 'run'}\n`);
  } finally {
    rmSync(lockDir, { recursive: true, force: true });
  }
}

/** Path of the pinned Node, or the running one where no pinned build exists for this machine. */
function pinnedNode() {
  const pinned = join(modules, `node-${process.platform}-${process.arch}`, 'bin', 'node');
  if (existsSync(pinned)) return pinned;
  const major = Number(process.versions.node.split('.')[0]);
  if (major < 24) {
    process.stderr.write(
      `Gapline: no pinned Node for ${process.platform}-${process.arch}; Node 24 or newer is needed, this is ${process.version}.\n`,
    );
    process.exit(1);
  }
  return process.execPath;
}

const [verb, ...rest] = process.argv.slice(2);
const job = verbs[verb];
if (!job) {
  process.stderr.write(`Gapline: unknown verb "${verb}". One of: ${Object.keys(verbs).join(', ')}.\n`);
  process.exit(2);
}
install(job.dev);
const node = pinnedNode();
const run = spawnSync(node, ['--disable-warning=ExperimentalWarning', join(root, job.script), ...rest], {
  stdio: 'inherit',
  env: { ...process.env, PATH: dirname(node) + delimiter + process.env.PATH },
});
process.exit(run.status ?? 1);
