// Fills a small disk, makes room again, and says what happened as one JSON line: `node fill-disk.ts FOLDER`.
// FOLDER is the root of a file system of about two megabytes.
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { filmFilesIn, openFilmFiles } from '../src/film-files.ts';
import { openEmbeddedStore } from '../src/open-store.ts';
import { StorageFailure } from '../src/storage-failure.ts';

const folder = process.argv[2] ?? '';
const at = '2026-01-01T00:00:00.000Z';
const id = 'full';

async function open() {
  const opened = await openEmbeddedStore(folder);
  if (!opened.ok) throw new Error(opened.reason.message);
  return opened.value;
}

const failureOf = async (work: () => Promise<unknown>) => {
  try {
    await work();
    return 'none';
  } catch (error) {
    return error instanceof StorageFailure ? error.code : String(error);
  }
};

const ballast = join(folder, 'ballast');
writeFileSync(ballast, Buffer.alloc(400_000));
await openFilmFiles(folder);
const films = filmFilesIn(folder);
const kept = await films.put(Buffer.alloc(50_000, 1));
let store = await open();
await store.cases.create(
  { format: 'gapline-case', version: '1.0', id, title: '0', side: 'left', patient: {}, films: [], marks: [] },
  at,
);
let saved = 1;
const note = 'x'.repeat(15_000);
const change = async () => {
  const edits = [{ kind: 'set', field: '/note', value: `${saved} ${note}` }] as const;
  const changed = await store.cases.change(id, { baseRevision: saved, edits, label: '', at });
  if (!changed.ok) throw new Error(changed.reason.message);
  saved = changed.value.revision;
};
const whenFull = await failureOf(async () => {
  for (let i = 0; i < 1000; i += 1) await change();
});
const filmWhenFull = await failureOf(() => films.put(Buffer.alloc(900_000, 2)));
const stillReadable = (await store.cases.read(id))?.revision;
await store.close();
store = await open();
const afterReopening = (await store.cases.read(id))?.revision;
rmSync(ballast);
const afterRoom = await failureOf(change);
console.log(
  JSON.stringify({
    whenFull,
    filmWhenFull,
    saved,
    stillReadable,
    afterReopening,
    afterRoom,
    filmKept: (await films.read(kept)).ok,
    history: (await store.cases.history(id)).length,
  }),
);
await store.close();
