import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { SetList } from '@gapline/core/kit/set-list.ts';
import type { Outcome } from '@gapline/core/measure/outcome.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import { keepTaken } from './keep-taken.ts';
import type { Workbench } from './workbench.ts';

type Say = (line: string) => void;

/** What a new data folder starts with: the example catalogue and, where there is no case yet, the demonstration case. */
export async function firstContent(bench: Workbench, project: string, say: Say): Promise<void> {
  const { store } = bench;
  const at = bench.now().toISOString();
  const catalogue = await ship(join(project, 'catalogues', 'demo.json'), catalogueShelf(store), at);
  const setList = await ship(join(project, 'kits', 'demo.json'), setListShelf(store), at);
  const { cases } = store;
  if ((await cases.list()).length > 0) return;
  say('Making the demonstration case (once, about half a minute) ...');
  const folder = await mkdtemp(join(bench.filmFiles.incoming, 'demo-'));
  try {
    const { demoCase } = await import('@gapline/phantoms/src/demo-case.ts');
    demoCase(folder);
    await takeCaseFolder(bench, folder, { catalogue, setList });
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** A shelf of the store for one kind of document that comes with the program. */
interface Shelf<T> {
  readonly read: (id: string) => Promise<string | null>;
  readonly put: (document: T, kept: { shipped: true; body: string; at: string }) => Promise<Outcome<unknown>>;
}

/** Puts a shipped document in, again where a new version of the program brings another text. Gives its id. */
async function ship<T extends { readonly id: string }>(file: string, shelf: Shelf<T>, at: string): Promise<string> {
  const body = await readFile(file, 'utf8');
  const document = JSON.parse(body) as T;
  if ((await shelf.read(document.id)) === body) return document.id;
  const put = await shelf.put(document, { shipped: true, body, at });
  if (!put.ok) throw new Error(put.reason.message);
  return document.id;
}

const catalogueShelf = ({ catalogues }: Workbench['store']): Shelf<Catalogue> => ({
  read: (id) => catalogues.read(id),
  put: ({ id, name, invented }, kept) => catalogues.put({ id, name, invented, ...kept }),
});

const setListShelf = ({ setLists }: Workbench['store']): Shelf<SetList> => ({
  read: (id) => setLists.read(id),
  put: ({ id, name, catalogue, invented }, kept) => setLists.put({ id, name, catalogue, invented, ...kept }),
});

/** Brings a case folder in: its films first, then the case, so that a case never lacks a film. */
async function takeCaseFolder(
  bench: Workbench,
  folder: string,
  { catalogue, setList }: { readonly catalogue: string; readonly setList: string },
): Promise<void> {
  const file = JSON.parse(await readFile(join(folder, 'case.json'), 'utf8')) as CaseFile;
  const films: CaseFilm[] = [];
  for (const film of file.films) {
    const taken = await bench.filmWork.take({
      folder: bench.folder,
      path: join(folder, film.file),
      name: film.file,
      strip: false,
    });
    if (!taken.ok) throw new Error(taken.reason.message);
    await keepTaken(bench, taken.value);
    films.push({ ...film, sha256: taken.value.sha256 });
  }
  const whole = { ...file, films, catalogue, kit: { ...file.kit, setList } };
  const made = await bench.store.cases.create(whole, bench.now().toISOString());
  if (!made.ok) throw new Error(made.reason.message);
}
