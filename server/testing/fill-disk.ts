// Uploads to a workbench whose data folder lies on a small disk, and says what it answered as one JSON
// line: `node fill-disk.ts FOLDER`. FOLDER is the root of a file system of about eight megabytes.
import type { CaseState, CaseSummary } from '../src/contract.ts';
import { jsonOf, workbenchUnderTest } from './workbench-under-test.ts';

const bench = await workbenchUnderTest({ folder: process.argv[2] ?? '' });
const { case: file } = await jsonOf<CaseState>(bench.post('/api/cases', { title: 'Kept', side: 'left', films: [] }));
const upload = await bench.upload('/api/imports', [{ name: 'large.dcm', bytes: Buffer.alloc(20_000_000) }]);
const said = { status: upload.status, body: await jsonOf<unknown>(upload) };
const edits = [{ kind: 'set', field: '/note', value: 'after the full disk' }];
const changed = await bench.post(`/api/cases/${file.id}/edits`, { baseRevision: 1, edits, label: '' });
const cases = await jsonOf<CaseSummary[]>(bench.get('/api/cases'));
console.log(
  JSON.stringify({ ...said, changed: changed.status, cases: cases.map((c) => c.title), faults: bench.faults }),
);
await bench.close();
