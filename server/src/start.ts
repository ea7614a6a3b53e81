// `npm start`: brings up the workbench, prints its one address, opens the browser where there is one.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { StorageFailure } from '@gapline/store/src/storage-failure.ts';
import { freshPages } from './build-pages.ts';
import { openBrowser } from './open-browser.ts';
import { HELP, startOptions } from './start-options.ts';

const project = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const say = (line: string) => console.log(`Gapline: ${line}`);

function stop(message: string, mend?: string): never {
  console.error(`Gapline: ${message}${mend ? ` ${mend}` : ''}`);
  process.exit(1);
}

async function start(): Promise<void> {
  const options = startOptions(process.argv.slice(2), process.env, project);
  if (!options.ok) return stop(options.reason.message, options.reason.mend);
  if (options.value.help) return console.log(HELP);
  await freshPages(project, say);
  const [{ runWorkbench }, { firstContent }] = await Promise.all([
    import('./run-workbench.ts'),
    import('./first-content.ts'),
  ]);
  const running = await runWorkbench({
    ...options.value,
    pages: join(project, 'web', 'dist'),
    prepare: (bench) => firstContent(bench, project, say),
  });
  if (!running.ok) return stop(running.reason.message, running.reason.mend);
  const { address } = running.value;
  // Before the address is told: whoever reads it may press Ctrl-C at once.
  stopOnSignal(() => running.value.close());
  say(`data in ${options.value.folder}. Research and education only; no approval as a medical device anywhere.`);
  say(`open ${address}`);
  if (options.value.open) await openBrowser(address, process.env);
}

/** Ctrl-C finishes what is under way; a second one does not wait. */
function stopOnSignal(close: () => Promise<void>): void {
  let asked = false;
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.on(signal, () => {
      if (asked) process.exit(1);
      asked = true;
      say('stopping ...');
      close().then(
        () => process.exit(0),
        (error: unknown) => stop(`could not stop cleanly: ${String(error)}`),
      );
    });
  }
}

start().catch((error: unknown) => {
  if (error instanceof StorageFailure) stop(error.message, 'Mend that and start again.');
  throw error;
});
