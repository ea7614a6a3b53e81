import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { plainFilmElements, writeRawDicom } from '@gapline/film/write/dx.ts';
import { uidOf } from '@gapline/film/write/uid.ts';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { jsonOf, type WorkbenchUnderTest, workbenchUnderTest } from '../testing/workbench-under-test.ts';
import type { CaseState, ErrorBody, ImportedFile, LabelBody, LaboratoryBody } from './contract.ts';

let bench: WorkbenchUnderTest;
beforeAll(async () => {
  bench = await workbenchUnderTest();
});
afterAll(async () => {
  await bench.close();
  expect(bench.faults).toEqual([]);
});

const refused = async (answer: Promise<Response>) => {
  const got = await answer;
  return { status: got.status, ...(await jsonOf<ErrorBody>(got)).error };
};

describe('work-up', () => {
  test('a scanned label is read with its check digit, a wrong one is refused with its mend', async () => {
    const label = await jsonOf<LabelBody>(
      bench.post('/api/read/label', { text: '(01)51022222233336(17)301231(10)A213B1' }),
    );
    expect(label).toMatchObject({ carrier: 'gs1', lot: 'A213B1', expires: '2030-12-31' });
    expect(await refused(bench.post('/api/read/label', { text: '(01)51022222233337' }))).toMatchObject({
      status: 422,
      code: 'label-refused',
      mend: expect.any(String),
    });
    expect(await refused(bench.post('/api/read/label', {}))).toMatchObject({ status: 400 });
  });

  test('pasted rows and Bundles give results as entered, and what is not known is given back', async () => {
    const csv = 'date,test,value,unit\n2026-10-02,crp,4.2,mg/dL\n2026-10-02,magic,1,mg/L';
    const read = await jsonOf<LaboratoryBody>(bench.post('/api/read/laboratory', { kind: 'csv', text: csv }));
    expect(read.results).toMatchObject([{ analyte: 'crp', value: 4.2, unit: 'mg/dL' }]);
    expect(read.notTaken).toHaveLength(1);
    expect(await refused(bench.post('/api/read/laboratory', { kind: 'fhir', text: '{' }))).toMatchObject({
      code: 'laboratory-refused',
    });
  });

  test('the letter of a saved case is a PDF; of an unknown case it is refused', async () => {
    const made = await jsonOf<CaseState>(bench.post('/api/cases', { title: 'Referred', side: 'left', films: [] }));
    const answer = await bench.post(`/api/cases/${made.case.id}/letters`, { identity: false, to: 'A regional unit' });
    expect(answer.headers.get('content-type')).toContain('application/pdf');
    expect(
      Buffer.from(await answer.arrayBuffer())
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
    expect(await refused(bench.post('/api/cases/none/letters', { identity: true }))).toMatchObject({ status: 404 });
  });
});

describe('identity on import', () => {
  const pixels = Uint16Array.from({ length: 40 * 51 }, (_, i) => (i * 37) % 4096);
  const film = writeRawDicom(
    plainFilmElements({
      kind: 'dx',
      pixels,
      rows: 51,
      columns: 40,
      bitsStored: 12,
      monochrome1: false,
      window: { centre: 2048, width: 4096 },
      patient: { name: 'Planted^Name', id: 'PLANTED-ID', sex: 'F', birthDate: '19500102' },
      study: { uid: uidOf('i/study'), date: '20250310', time: '090000', id: 'T1', description: 'Knee' },
      series: { uid: uidOf('i/series'), number: 1, description: 'AP' },
      instance: { uid: uidOf('i/image'), number: 1 },
      laterality: 'R',
      view: { position: 'AP', code: '399348003', meaning: 'antero-posterior' },
      region: { code: '72696002', meaning: 'Knee' },
      bodyPart: 'KNEE',
      orientation: ['L', 'F'],
      derived: null,
      spacing: { detectorMm: 0.148, sourceToDetectorMm: 1150, sourceToPatientMm: 1110 },
      exposure: { kvp: 66, mas: 6 },
    }),
    pixels,
  );
  const stored = (sha256: string) => join(bench.folder, 'films', sha256.slice(0, 2), sha256);
  const importOne = async (strip: '0' | '1') => {
    const upload = bench.upload(`/api/imports?strip=${strip}`, [{ name: 'Planted Name.dcm', bytes: film }]);
    const [file] = await jsonOf<ImportedFile[]>(upload);
    if (!file?.accepted) throw new Error(JSON.stringify(file));
    return file;
  };

  test('asked for, it is taken out before anything is stored; the day and the scale stay', async () => {
    const plain = await importOne('0');
    const clean = await importOne('1');
    expect(plain.patient).toMatchObject({ id: 'PLANTED-ID' });
    expect(clean.patient).toEqual({});
    expect(clean.film.takenOn).toBe('2025-03-10');
    expect(clean.film.scaleFacts).toEqual(plain.film.scaleFacts);
    expect(clean.film.file).not.toContain('Planted');
    expect(readFileSync(stored(plain.sha256)).includes('PLANTED')).toBe(true);
    expect(readFileSync(stored(clean.sha256)).includes('PLANTED')).toBe(false);
    expect((await importOne('1')).sha256).toBe(clean.sha256);
  });
});
