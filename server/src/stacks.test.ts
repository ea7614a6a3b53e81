import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { ctPhantom, writeCt } from '@gapline/phantoms/src/ct.ts';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { jsonOf, type WorkbenchUnderTest, workbenchUnderTest } from '../testing/workbench-under-test.ts';
import type { CaseState, ErrorBody, ImportedFile } from './contract.ts';

const phantom = ctPhantom({ seed: 8, side: 'right', femoralDeg: -4, tibialDeg: -20, size: 64, thicknessMm: 12 });
const files = writeCt(phantom).map(({ file, bytes }) => ({ name: file, bytes }));
const otherPatient = () => {
  const [first] = phantom.slices;
  const patient = { ...first!.patient, name: 'Somebody^Else', id: 'OTHER' };
  const stray = { ...first!, patient, originMm: [0, 0, 9] as const, instance: { uid: '2.25.77', number: 77 } };
  return { name: 'stray.dcm', bytes: writeCt({ ...phantom, slices: [stray] })[0]!.bytes };
};

let bench: WorkbenchUnderTest;
beforeAll(async () => {
  bench = await workbenchUnderTest();
});
afterAll(async () => {
  expect(bench.faults).toEqual([]);
  await bench.close();
});

const imported = async (some: typeof files, query = ''): Promise<ImportedFile[]> =>
  jsonOf(bench.upload(`/api/imports${query}`, some));
async function caseWith(answers: readonly ImportedFile[]): Promise<CaseState> {
  const films = answers.flatMap((a) => (a.accepted ? [a.film] : []));
  return jsonOf(bench.post('/api/cases', { title: 'Stack', side: 'right', films }));
}

describe('CT stacks over the wire', () => {
  test('many slices, in any order and without identity, make one film that carries them in their order', async () => {
    const answers = await imported([...files.toReversed(), otherPatient()], '?strip=1');
    const [stack, stray] = answers;
    expect(answers).toHaveLength(2);
    if (!stack?.accepted || stray?.accepted !== false) throw new Error('one stack and one refusal are wanted');
    expect(stray.error).toMatchObject({
      message: expect.stringContaining('another patient'),
      mend: expect.any(String),
    });
    expect(stack.film).toMatchObject({ view: 'ct', side: 'right', columnsTowards: 'patient-left' });
    const places = stack.film.slices?.each.map((s) => s.originMm[2]) ?? [];
    expect(places).toHaveLength(files.length);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(stack.patient.name).toBeUndefined();
    expect(JSON.stringify(stack)).not.toContain('Phantom^Slices');
  });

  test('runs of slices come on one scale of grey, and marks keep their slice', async () => {
    const { case: file, revision } = await caseWith(await imported(files));
    const [film] = file.films;
    const answer = await bench.get(`/api/cases/${file.id}/films/${film!.id}/slices?from=2&count=3`);
    const values = new Uint16Array(await answer.arrayBuffer());
    expect(values).toHaveLength(3 * 64 * 64);
    const expected = phantom.slices.slice(2, 5).flatMap((s) => [...s.pixels]);
    expect([...values]).toEqual(expected);
    // Past the end there is what there is.
    const tail = await bench.get(`/api/cases/${file.id}/films/${film!.id}/slices?from=${files.length - 1}&count=16`);
    expect((await tail.arrayBuffer()).byteLength).toBe(64 * 64 * 2);
    const put = (mark: Partial<Mark>) =>
      bench.post(`/api/cases/${file.id}/edits`, {
        baseRevision: revision,
        label: 'Mark',
        edits: [
          {
            kind: 'put-mark',
            mark: {
              landmark: 'ct-tubercle-tip',
              side: 'right',
              film: film!.id,
              points: [{ x: 3, y: 4 }],
              how: 'by-hand',
              ...mark,
            },
          },
        ],
      });
    for (const slice of [undefined, files.length, 1.5]) {
      const refused = await put(slice === undefined ? {} : { slice });
      expect([refused.status, (await jsonOf<ErrorBody>(refused)).error.message]).toEqual([
        422,
        expect.stringContaining('slice'),
      ]);
    }
    const taken = await jsonOf<CaseState>(put({ slice: 1 }));
    expect(taken.case.marks).toMatchObject([{ landmark: 'ct-tubercle-tip', slice: 1 }]);
  });

  test('slices that are not there, or were not imported, are refused', async () => {
    const answers = await imported(files);
    const { case: file } = await caseWith(answers);
    const [film] = file.films;
    const status = async (path: string) => (await bench.get(`/api/cases/${path}`)).status;
    expect(await status(`${file.id}/films/${film!.id}/slices?from=900&count=1`)).toBe(404);
    expect(await status(`${file.id}/films/none/slices?from=0&count=1`)).toBe(404);
    expect(await status(`none/films/${film!.id}/slices?from=0&count=1`)).toBe(404);
    expect(await status(`${file.id}/films/${film!.id}/slices?from=-1&count=x`)).toBe(400);
    const [first] = answers;
    if (!first?.accepted || !first.film.slices) throw new Error('a stack is wanted');
    const [one, ...rest] = first.film.slices.each;
    const forged = {
      ...first.film,
      slices: { ...first.film.slices, each: [{ ...one!, sha256: 'f'.repeat(64) }, ...rest] },
    };
    const refused = await bench.post('/api/cases', { title: 'x', side: 'right', films: [forged] });
    expect([refused.status, (await jsonOf<ErrorBody>(refused)).error.code]).toEqual([422, 'film-needs-import']);
  });
});
