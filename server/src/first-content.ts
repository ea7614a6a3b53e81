import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { SetList } from '@gapline/core/kit/set-list.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import { keepTaken } from './keep-taken.ts';
import type { Workbench } from './workbench.ts';

type Say = (line: string) => void;

/** What a new data folder starts with: the example catalogue and, where there is no case yet, the demonstration case. */
export async function firstContent(bench: Workbench, project: string, say: Say): Promise<void> {
  const catalogue = await shipCatalogue(bench, join(project, 'catalogues', 'demo.json'));
  const setList = await shipSetList(bench, join(project, 'kits', 'demo.json'));
  const { cases } = bench.store;
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

/** Puts the shipped catalogue in, again where a new version of the program brings another text. Gives its id. */
async function shipCatalogue({ store, now }: Workbench, file: string): Promise<string> {
  const body = await readFile(file, 'utf8');
  const { id, name, invented } = JSON.parse(body) as Catalogue;
  if ((await store.catalogues.read(id)) === body) return id;
  const put = await store.catalogues.put({ id, name, invented, shipped: true, body, at: now().toISOString() });
  if (!put.ok) throw new Error(put.reason.message);
  return id;
}

/** The same for the example hospital's sets. */
async function shipSetList({ store, now }: Workbench, file: string): Promise<string> {
  const body = await readFile(file, 'utf8');
  const { id, name, catalogue, invented } = JSON.parse(body) as SetList;
  if ((await store.setLists.read(id)) === body) return id;
  const row = { id, name, catalogue, invented, shipped: true };
  const put = await store.setLists.put({ ...row, body, at: now().toISOString() });
  if (!put.ok) throw new Error(put.reason.message);
  return id;
}

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
