import { readFileSync } from 'node:fs';
import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { Outcome } from '@gapline/core/measure/outcome.ts';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { catalogueText, demoCatalogue } from '../../catalogues/make-demo.ts';
import { catalogueSchemaDocument, SAME_AS_CATALOGUE } from './catalogue-schema.ts';
import { CSV_TABLES } from './csv-tables.ts';
import { PUBLISHED, publishedText } from './publish-schema.ts';
import { readCatalogue } from './read-catalogue.ts';
import { readCatalogueCsv } from './read-catalogue-csv.ts';
import { writeCatalogueCsv } from './write-catalogue-csv.ts';

const FILE = new URL('../../catalogues/demo.json', import.meta.url);
const demo = demoCatalogue();

const reasonOf = (outcome: Outcome<Catalogue>) => {
  if (outcome.ok) throw new Error('should have been refused');
  return outcome.reason;
};
type Draft<T> = T extends readonly (infer E)[]
  ? Draft<E>[]
  : T extends object
    ? { -readonly [K in keyof T]: Draft<T[K]> }
    : T extends string
      ? string
      : T;
/** Reads the example catalogue after one value was changed. */
const withChange = (change: (c: Draft<Catalogue>) => void) => {
  const copy: Draft<Catalogue> = JSON.parse(JSON.stringify(demo));
  change(copy);
  return reasonOf(readCatalogue(JSON.stringify(copy), 'mine.json'));
};

describe('the example system', () => {
  test('its file is what its generator writes', () => {
    expect(readFileSync(FILE, 'utf8')).toBe(catalogueText(demo));
  });

  test('CAT-1 it reads without a fault, and comes back as it is', () => {
    expect(readCatalogue(readFileSync(FILE, 'utf8'), 'demo.json')).toEqual({ ok: true, value: demo, warnings: [] });
  });

  test('it says that it is invented, and every size has an outline', () => {
    expect(demo.invented).toBe(true);
    for (const { outlines } of [...demo.femurs, ...demo.trays, ...demo.inserts])
      for (const lines of [outlines?.coronal, outlines?.sagittal]) expect(lines?.[0]?.length).toBeGreaterThan(6);
  });

  test('drawn widths and depths are the stated ones', () => {
    const span = (line: Catalogue['trays'][number]['outlines']['coronal'][number] | undefined, axis: 0 | 1) => {
      const all = (line ?? []).map((p) => p[axis]);
      return Math.max(...all) - Math.min(...all);
    };
    for (const f of demo.femurs) {
      expect(span(f.outlines.coronal[0], 0)).toBeCloseTo(f.widthMm, 0);
      expect(Math.min(...(f.outlines.sagittal[0] ?? []).map((p) => p[0]))).toBeCloseTo(0, 1);
      expect(Math.min(...(f.outlines.sagittal[0] ?? []).map((p) => p[1]))).toBeCloseTo(0, 1);
    }
    for (const t of demo.trays) {
      expect(Math.abs(span(t.outlines.coronal[0], 0) - t.widthMm)).toBeLessThan(0.15);
      expect(Math.abs(span(t.outlines.sagittal[0], 0) - t.apMm)).toBeLessThan(0.15);
    }
  });

  test('dimensions lie in the published anatomy: femurs 53 to 76 mm deep, trays 60 to 88 mm wide', () => {
    const range = (xs: readonly number[]) => [Math.min(...xs), Math.max(...xs)];
    expect(range(demo.femurs.map((f) => f.apMm))).toEqual([53, 74]);
    expect(range(demo.femurs.map((f) => f.widthMm))).toEqual([57, 81.5]);
    expect(range(demo.trays.map((t) => t.widthMm))).toEqual([60, 88]);
    expect(range(demo.trays.map((t) => t.apMm))).toEqual([39, 56.5]);
  });
});

describe('schema', () => {
  test('CAT-1 the published schema is up to date, valid 2020-12, and of the core type', () => {
    expect(SAME_AS_CATALOGUE).toBe(true);
    expect(readFileSync(PUBLISHED, 'utf8')).toBe(publishedText());
    const ajv = new Ajv2020({ strict: true });
    expect(ajv.validateSchema(catalogueSchemaDocument())).toBe(true);
  });
});

describe('faults in JSON name the file, the field and the mend', () => {
  test.each([
    ['not JSON', '{', 'not-json'],
    ['another kind of file', '{"format":"something"}', 'not-a-catalogue'],
    ['a newer version', '{"format":"gapline-catalogue","version":"2.0"}', 'other-version'],
    ['a list', '[]', 'not-a-catalogue'],
    ['null', 'null', 'not-a-catalogue'],
  ])('%s', (_name, text, code) => {
    const reason = reasonOf(readCatalogue(text, 'mine.json'));
    expect(reason.code).toBe(code);
    expect(reason.message).toContain('mine.json');
    expect(reason.mend).toBeTruthy();
  });

  test('CAT-3 a negative dimension is refused by name', () => {
    const reason = withChange((c) => {
      c.femurs[3]!.apMm = -5;
    });
    expect(reason).toMatchObject({ code: 'out-of-range', file: 'mine.json', field: 'femurs[3].apMm' });
    expect(reason.message).toBe('mine.json: femurs[3].apMm is -5, but must be > 0.');
  });

  test('a missing field, an unknown field, a wrong word', () => {
    expect(withChange((c) => Reflect.deleteProperty(c.trays[0]!, 'widthMm'))).toMatchObject({
      code: 'field-missing',
      field: 'trays[0].widthMm',
    });
    expect(withChange((c) => Object.assign(c.limits, { cementCm: 4 }))).toMatchObject({
      code: 'field-unknown',
      field: 'limits.cementCm',
    });
    expect(
      withChange((c) => {
        c.inserts[0]!.level = 'cr';
      }),
    ).toMatchObject({ code: 'not-in-list', field: 'inserts[0].level', mend: 'Use one of: ps, vvc, hinge.' });
  });

  test('CAT-2 a compatibility size that no part has is refused by name', () => {
    const reason = withChange((c) => {
      c.compatibility.femurTray[0]!.traySize = 11;
    });
    expect(reason).toMatchObject({ code: 'size-without-part', field: 'compatibility.femurTray[0].traySize' });
    expect(reason.message).toContain('tray size 11');
  });

  test('CAT-2 an augment for a size that does not exist, a reference twice', () => {
    expect(
      withChange((c) => {
        c.tibialAugments[0]!.traySizes.push(9);
      }),
    ).toMatchObject({ code: 'size-without-part', field: 'tibialAugments[0].traySizes[1]' });
    const twice = withChange((c) => {
      c.trays[2]!.ref = 'EX-T1';
    });
    expect(twice).toMatchObject({ code: 'reference-twice', field: 'trays[2].ref' });
    expect(twice.message).toContain('trays[0]');
  });

  test('CAT-3 more polyethylene than the insert is high is refused', () => {
    const reason = withChange((c) => {
      c.inserts[5]!.leastPolyethyleneMm = 40;
    });
    expect(reason).toMatchObject({ code: 'polyethylene-above-height', field: 'inserts[5].leastPolyethyleneMm' });
  });

  test('CAT-5 a bow without its radius, a radius without bow, an opening as wide as its cone', () => {
    const bowed = demo.stems.findIndex((s) => s.shape === 'bowed');
    expect(withChange((c) => Reflect.deleteProperty(c.stems[bowed]!, 'bowRadiusMm'))).toMatchObject({
      code: 'bow-without-radius',
      field: `stems[${bowed}].shape`,
    });
    expect(withChange((c) => Object.assign(c.stems[0]!, { bowRadiusMm: 900 }))).toMatchObject({
      code: 'radius-without-bow',
      field: 'stems[0].bowRadiusMm',
    });
    expect(withChange((c) => Object.assign(c.cones![0]!, { boreMm: 36 }))).toMatchObject({
      code: 'bore-above-width',
      field: 'cones[0].boreMm',
    });
  });

  test('CAT-2 a sleeve or a segment of a size that no component has is refused by name', () => {
    expect(withChange((c) => c.sleeves![0]!.sizes.push(9))).toMatchObject({ field: 'sleeves[0].sizes[3]' });
    expect(
      withChange((c) => {
        c.segments![1]!.size = 9;
      }),
    ).toMatchObject({ code: 'size-without-part', field: 'segments[1].size' });
  });

  test('several faults: the first is told, the others are counted', () => {
    const reason = withChange((c) => {
      const { trays } = c;
      trays[2]!.ref = 'EX-T1';
      trays[3]!.ref = 'EX-T1';
    });
    expect(reason.message).toMatch(/\(and 1 more\)$/);
  });
});

describe('tables in CSV', () => {
  const tables = writeCatalogueCsv(demo);
  const bare = (c: Catalogue): Catalogue => ({
    ...c,
    femurs: c.femurs.map((f) => ({ ...f, outlines: { coronal: [], sagittal: [] } })),
    trays: c.trays.map((t) => ({ ...t, outlines: { coronal: [], sagittal: [] } })),
    inserts: c.inserts.map(({ outlines: _own, ...i }) => i),
  });
  const changed = (file: string, change: (text: string) => string) =>
    reasonOf(readCatalogueCsv({ ...tables, [file]: change(tables[file] ?? '') }));

  test('CAT-4 the example system goes out to tables and comes back, but for its outlines', () => {
    expect(Object.keys(tables)).toEqual(CSV_TABLES.map((t) => t.file));
    expect(readCatalogueCsv(tables)).toEqual({ ok: true, value: bare(demo), warnings: [] });
  });

  test('CAT-4 tables written before stems could be bowed and cones had a depth still read', () => {
    const read = readCatalogueCsv({
      ...tables,
      'stems.csv': 'ref,name,bone,fixation,diameter_mm,length_mm\nA,A,both,cemented,10,50\n',
      'cones.csv': 'ref,name,bone,width_mm,height_mm,sizes\nB,B,femur,36,25,1 2\n',
    });
    expect(read.ok && [read.value.stems, read.value.cones]).toEqual([
      [{ ref: 'A', name: 'A', bone: 'both', fixation: 'cemented', diameterMm: 10, lengthMm: 50 }],
      [{ ref: 'B', name: 'B', bone: 'femur', widthMm: 36, heightMm: 25, sizes: [1, 2] }],
    ]);
  });

  test('CAT-4 the documentation names every table with its columns', () => {
    const docs = readFileSync(new URL('../../docs/catalogue.md', import.meta.url), 'utf8');
    for (const { file, columns } of CSV_TABLES) {
      const row = docs.split('\n').find((line) => line.startsWith(`| \`${file}\``));
      expect(row, file).toContain(`\`${columns.map((c) => c.header).join(',')}\``);
    }
  });

  test('CAT-4 a byte order mark, quotes, empty lines and other line ends do no harm', () => {
    const csv = `\uFEFF${(tables['trays.csv'] ?? '').replaceAll('\n', '\r\n')}\r\n\r\n`;
    expect(readCatalogueCsv({ ...tables, 'trays.csv': csv })).toEqual({ ok: true, value: bare(demo), warnings: [] });
  });

  test('CAT-4 faults name table, row and column', () => {
    expect(
      changed('femurs.csv', (t) =>
        t.replace('EX-F2R,"Femoral component 2, right",2,right,9,', 'EX-F2R,"Femoral component 2, right",2,right,-9,'),
      ),
    ).toMatchObject({
      code: 'out-of-range',
      file: 'femurs.csv',
      field: 'row 3, column distal_mm',
    });
    expect(changed('trays.csv', (t) => t.replace('60', 'sixty'))).toMatchObject({
      code: 'wrong-type',
      file: 'trays.csv',
      field: 'row 2, column width_mm',
    });
    expect(changed('femur-tray.csv', (t) => t.replace('\n1,1\n', '\n1,77\n'))).toMatchObject({
      code: 'size-without-part',
      field: 'row 2, column tray_size',
    });
    expect(changed('limits.csv', (t) => t.replace('\n4,', '\n-4,'))).toMatchObject({
      file: 'limits.csv',
      field: 'row 2, column cement_mm',
    });
    expect(changed('system.csv', (t) => t.replace(',yes,', ',perhaps,'))).toMatchObject({
      file: 'system.csv',
      field: 'row 2, column invented',
    });
  });

  test('CAT-4 a missing table, a missing column, an unknown column, a short row, an open quote', () => {
    const { 'trays.csv': _none, ...without } = tables;
    expect(reasonOf(readCatalogueCsv(without))).toMatchObject({ code: 'table-missing', file: 'trays.csv' });
    expect(changed('stems.csv', (t) => t.replace('diameter_mm', 'diameter'))).toMatchObject({
      code: 'column-missing',
      field: 'row 1, column diameter_mm',
    });
    expect(changed('cones.csv', (t) => t.replace(/^(.+)$/gm, '$1,x'))).toMatchObject({ code: 'column-unknown' });
    expect(changed('stems.csv', (t) => `${t}EX-X,short\n`)).toMatchObject({ code: 'not-a-table', file: 'stems.csv' });
    expect(changed('stems.csv', (t) => `${t}"EX-X,open\n`)).toMatchObject({ code: 'not-a-table', file: 'stems.csv' });
    expect(changed('limits.csv', (t) => t.split('\n')[0] ?? '')).toMatchObject({ code: 'rows', file: 'limits.csv' });
  });
});
