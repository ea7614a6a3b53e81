// A process that changes a case again and again until it is killed, and says each revision that was
// acknowledged: `node commit-forever.ts FOLDER`.
import { writeSync } from 'node:fs';
import { lockDataFolder } from '../src/data-folder-lock.ts';
import { openFilmFiles } from '../src/film-files.ts';
import { openEmbeddedStore } from '../src/open-store.ts';

const folder = process.argv[2] ?? '';
const most = Number(process.argv[3] ?? Number.POSITIVE_INFINITY);
const lock = lockDataFolder(folder);
if (!lock.ok) throw new Error(lock.reason.message);
const opened = await openEmbeddedStore(folder);
if (!opened.ok) throw new Error(opened.reason.message);
const { cases } = opened.value;
const films = await openFilmFiles(folder);
const at = '2026-01-01T00:00:00.000Z';
const id = 'crash';
await cases.create(
  { format: 'gapline-case', version: '1.0', id, title: '0', side: 'left', patient: {}, films: [], marks: [] },
  at,
);
let revision = (await cases.read(id))?.revision ?? 0;
writeSync(1, 'ready\n');
for (let done = 0; done < most; done += 1) {
  const title = String(revision);
  const changed = await cases.change(id, {
    baseRevision: revision,
    edits: [{ kind: 'set', field: '/title', value: title }],
    label: title,
    at,
  });
  if (!changed.ok) throw new Error(changed.reason.message);
  revision = changed.value.revision;
  // Written at once to the pipe: what the person saw as saved.
  writeSync(1, `saved ${revision}\n`);
  if (done % 10 === 0) writeSync(1, `film ${await films.put(Buffer.alloc(300_000, revision % 251))}\n`);
}
await opened.value.close();
lock.value.release();
