// `npm run dev`: the workbench under development. Pages are built again when their sources change, the
// server starts again when its sources change; a reload of the browser shows the change.
import { type ChildProcess, spawn } from 'node:child_process';
import { watch } from 'node:fs';
import { join } from 'node:path';
import { buildPages } from '../web/build.ts';
import { root } from './steps.ts';

const PAGES = ['web', 'core'];
const SERVER = ['server', 'store', 'film', 'exchange', 'sheet', 'phantoms', 'core'];
/** Editors write a file in several steps. */
const SETTLE_MS = 150;

const say = (line: string) => console.log(`dev: ${line}`);

/** Calls `work` once a change under the folders has settled; never twice at a time. */
function onChange(folders: readonly string[], work: () => Promise<void>): void {
  let timer: NodeJS.Timeout | undefined;
  let running = Promise.resolve();
  const settled = () => {
    running = running.then(work).catch((error: unknown) => say(String(error)));
  };
  for (const folder of folders) {
    watch(join(root, folder), { recursive: true }, (_event, name) => {
      if (!name || !/\.(tsx?|css|html|svg)$/.test(name) || /(^|\/)(dist|node_modules)|\.test\./.test(name)) return;
      clearTimeout(timer);
      timer = setTimeout(settled, SETTLE_MS);
    });
  }
}

const build = async () => {
  const started = performance.now();
  await buildPages({ outDir: join(root, 'web', 'dist'), minify: false });
  say(`pages built in ${Math.round(performance.now() - started)} ms`);
};

let server: ChildProcess | undefined;
const startServer = (args: readonly string[]) => {
  const script = join(root, 'server', 'src', 'start.ts');
  server = spawn(process.execPath, ['--disable-warning=ExperimentalWarning', script, ...args], { stdio: 'inherit' });
};
const stopServer = () =>
  new Promise<void>((resolve) => {
    if (!server || server.exitCode !== null || server.signalCode !== null) return resolve();
    server.once('exit', () => resolve());
    server.kill('SIGTERM');
  });

const args = process.argv.slice(2);
await build();
startServer(args);
onChange(PAGES, build);
onChange(SERVER, async () => {
  await stopServer();
  // A browser that is signed in stays so: sessions outlive the server, and the port is the same.
  startServer([...args, '--no-open']);
});
for (const signal of ['SIGINT', 'SIGTERM'] as const) {
  process.on(signal, () => {
    stopServer().then(
      () => process.exit(0),
      () => process.exit(1),
    );
  });
}
