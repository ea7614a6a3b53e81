// `node cases/proposals-study.ts [phantoms] [first seed] [all]`: how accurate the proposals are, over many phantoms, three at a time; each
// gives one of its films in turn, with `all` all three. Takes many minutes; writes the table of docs/proposals.md when run on 100
// phantoms or more. Run by hand, no part of the tests.
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { Tallies, type Tally } from './proposals/score.ts';
import { judgeFilm } from './proposals/study.ts';
import { BEGIN, END, tableOf } from './proposals/table.ts';
import { VIEWS, variedFilms } from './proposals/varied-films.ts';

const here = fileURLToPath(import.meta.url);
const AT_A_TIME = 3;

function judgePhantom(seed: number, all: boolean): Tally[] {
  const tallies = new Tallies();
  const view = VIEWS[seed % VIEWS.length] ?? 'ap';
  for (const one of variedFilms(seed, all ? {} : { views: [view] })) judgeFilm(one, tallies);
  return [...tallies.all.values()];
}

/** Tells every confident answer that is wrong, so that it can be looked into. */
function tell(seed: number, judged: readonly Tally[]): void {
  for (const { what, scored } of judged)
    for (const s of scored)
      if (s.confident && s.wrong)
        process.stderr.write(`${seed}: ${what}, confident and wrong, off by ${s.mm.toFixed(2)} mm\n`);
}

async function study(first: number, many: number): Promise<Tallies> {
  const answers = new Map<number, readonly Tally[]>();
  const share = (k: number) =>
    new Promise<void>((done, failed) => {
      const seeds = Array.from({ length: many }, (_, i) => first + i).filter((_, i) => i % AT_A_TIME === k);
      const worker = new Worker(here, { workerData: { seeds, all: process.argv[4] === 'all' } });
      worker.on('message', ({ seed, judged }: { seed: number; judged: Tally[] }) => {
        answers.set(seed, judged);
        tell(seed, judged);
        process.stderr.write(`${answers.size} of ${many}\n`);
      });
      worker.on('error', failed);
      worker.on('exit', () => done());
    });
  await Promise.all(Array.from({ length: AT_A_TIME }, (_, k) => share(k)));
  const tallies = new Tallies();
  for (let seed = first; seed < first + many; seed++) tallies.take(answers.get(seed) ?? []);
  return tallies;
}

if (isMainThread) {
  const many = Number(process.argv[2] ?? 120);
  const table = tableOf(await study(Number(process.argv[3] ?? 2001), many), many);
  process.stdout.write(`${table}\n`);
  if (many >= 100) {
    const file = join(dirname(here), '..', 'docs', 'proposals.md');
    const text = readFileSync(file, 'utf8');
    const [from, to] = [text.indexOf(BEGIN), text.indexOf(END)];
    if (from < 0 || to < from) throw new Error('docs/proposals.md has lost the marks between which the table stands');
    writeFileSync(file, `${text.slice(0, from + BEGIN.length)}\n${table}\n${text.slice(to)}`);
  }
} else {
  const { seeds, all } = workerData as { readonly seeds: readonly number[]; readonly all: boolean };
  for (const seed of seeds) parentPort?.postMessage({ seed, judged: judgePhantom(seed, all) });
}
