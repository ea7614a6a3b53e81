import { readFileSync } from 'node:fs';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { PUBLISHED, publishedText } from './publish-schema.ts';
import { caseFaults, readCase } from './read-case.ts';
import { writeCase } from './write-case.ts';

const sound: CaseFile = {
  format: 'gapline-case',
  version: '1.0',
  id: 'invented-1',
  title: 'An invented knee',
  side: 'right',
  patient: { name: 'Invented^Ida' },
  films: [
    {
      id: 'ap',
      file: 'ap.dcm',
      sha256: 'a'.repeat(64),
      view: 'ap',
      side: 'right',
      role: 'present',
      scaleFacts: { volumetric: false, rows: 100, columns: 80, imagerPixelSpacing: [0.15, 0.15], derived: false },
      scale: { kind: 'ball', diameterMm: 25 },
    },
  ],
  marks: [{ landmark: 'adductor-tubercle', side: 'right', film: 'ap', points: [{ x: 10.5, y: 20 }], how: 'by-hand' }],
  implants: { trayWidthMm: 72 },
};
Object.freeze(sound);

/** The sound case with one thing changed, as text. */
function spoilt(change: (c: Record<string, unknown>) => void): string {
  const copy = JSON.parse(JSON.stringify(sound));
  change(copy);
  return JSON.stringify(copy);
}
const faultOf = (text: string) => {
  const read = readCase(text, 'case.json');
  return read.ok ? null : read.reason;
};

describe('reading a case file', () => {
  test('what is written is read back the same, and written again with the same bytes', () => {
    const text = writeCase(sound);
    const read = readCase(text, 'case.json');
    expect(read).toEqual({ ok: true, value: sound, warnings: [] });
    expect(read.ok && writeCase(read.value)).toBe(text);
  });

  test('the order of the fields in memory does not change the bytes', () => {
    const turned = Object.fromEntries(Object.entries(sound).reverse()) as unknown as CaseFile;
    expect(writeCase(turned)).toBe(writeCase(sound));
  });

  test('a byte order mark and a $schema line are no part of the case', () => {
    const read = readCase(`\uFEFF${spoilt((c) => Object.assign(c, { $schema: 'case.schema.json' }))}`, 'case.json');
    expect(read.ok && read.value).toEqual(sound);
  });

  test('text that is not JSON is refused with the place', () => {
    const fault = faultOf('{\n  "format": gapline\n}');
    expect(fault).toMatchObject({ code: 'not-json', file: 'case.json' });
    expect(fault?.message).toMatch(/Unexpected token 'g'.*"format": gapline/);
    expect(faultOf('{"format": "gapline-case",}')?.message).toContain('line 1 column 27');
  });

  test('another JSON file is refused as such', () => {
    expect(faultOf('[1, 2]')).toMatchObject({ code: 'not-a-case', field: 'format' });
    expect(faultOf('null')).toMatchObject({ code: 'not-a-case' });
  });

  test('a newer version is refused with its own message, whatever else it holds', () => {
    const fault = faultOf(spoilt((c) => Object.assign(c, { version: '1.1', somethingNew: true })));
    expect(fault).toMatchObject({ code: 'newer-version', field: 'version', file: 'case.json' });
    expect(fault?.message).toContain('version 1.1, this Gapline reads 1.0');
    expect(fault?.mend).toContain('newer Gapline');
    expect(faultOf(spoilt((c) => Object.assign(c, { version: '12.0' })))?.code).toBe('newer-version');
    expect(faultOf(spoilt((c) => Object.assign(c, { version: '0.9' })))?.code).toBe('unknown-version');
    expect(faultOf(spoilt((c) => delete c.version))?.code).toBe('unknown-version');
  });

  const film = (c: Record<string, unknown>) => (c.films as Record<string, unknown>[])[0] as Record<string, unknown>;
  const mark = (c: Record<string, unknown>) => (c.marks as Record<string, unknown>[])[0] as Record<string, unknown>;
  test.each<[string, (c: Record<string, unknown>) => void, string, RegExp, RegExp]>([
    ['a missing field', (c) => delete c.side, 'side', /case\.json: side is missing/, /Add "side"/],
    ['a mistyped field', (c) => Object.assign(c, { examinaton: {} }), 'examinaton', /not a field/, /"examination"/],
    ['a field of a film', (c) => delete film(c).view, 'films[0].view', /films\[0\]\.view is missing/, /Add "view"/],
    ['a wrong word', (c) => Object.assign(film(c), { view: 'AP' }), 'films[0].view', /"AP"/, /long-leg, ap, lateral/],
    [
      'a wrong landmark',
      (c) => Object.assign(mark(c), { landmark: 'adductor-tubercel' }),
      'marks[0].landmark',
      /adductor-tubercel/,
      /"adductor-tubercle"/,
    ],
    [
      'text for a number',
      (c) => Object.assign(c, { implants: { trayWidthMm: '72' } }),
      'implants.trayWidthMm',
      /"72"/,
      /decimal number/,
    ],
    [
      'a width of nothing',
      (c) => Object.assign(c, { implants: { trayWidthMm: 0 } }),
      'implants.trayWidthMm',
      /must be > 0/,
      /Correct the number/,
    ],
    [
      'a date in another order',
      (c) => Object.assign(film(c), { takenOn: '14.03.2026' }),
      'films[0].takenOn',
      /14\.03\.2026/,
      /2026-03-14/,
    ],
    [
      'one spacing for two',
      (c) => Object.assign(film(c).scaleFacts as object, { pixelSpacing: [0.1] }),
      'films[0].scaleFacts.pixelSpacing',
      /fewer than 2/,
      /at least 2/,
    ],
    [
      'an unknown kind of scale',
      (c) => Object.assign(film(c), { scale: { kind: 'guess' } }),
      'films[0].scale.kind',
      /"guess"/,
      /known-implant, ball, magnification, distances, stated-spacing/,
    ],
    [
      'half a scale',
      (c) => Object.assign(film(c), { scale: { kind: 'ball' } }),
      'films[0].scale.diameterMm',
      /missing/,
      /Add "diameterMm"/,
    ],
    [
      'a mark without a point',
      (c) => Object.assign(mark(c), { points: [] }),
      'marks[0].points',
      /fewer than 1/,
      /at least 1/,
    ],
    ['an empty title', (c) => Object.assign(c, { title: '' }), 'title', /empty/, /Fill it in/],
  ])('%s is named with file, field and mend', (_name, change, field, message, mend) => {
    const fault = faultOf(spoilt(change));
    expect(fault).toMatchObject({ file: 'case.json', field });
    expect(fault?.message).toMatch(message);
    expect(fault?.mend).toMatch(mend);
  });

  test('all faults are told, each once, and the first says how many more', () => {
    const text = spoilt((c) => {
      delete c.title;
      Object.assign(film(c), { scale: { kind: 'ball', diameterMm: -1 } });
    });
    expect(
      caseFaults(text, 'case.json')
        .map((f) => f.field)
        .sort(),
    ).toEqual(['films[0].scale.diameterMm', 'title']);
    expect(faultOf(text)?.message).toContain('(and 1 more in this file)');
  });
});

describe('the published schema', () => {
  test('cases/case.schema.json is the one that the reader uses (node exchange/case/publish-schema.ts)', () => {
    expect(readFileSync(PUBLISHED, 'utf8')).toBe(publishedText());
  });

  test('it is a JSON Schema 2020-12 that a strict validator accepts by itself', () => {
    const check = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(
      JSON.parse(readFileSync(PUBLISHED, 'utf8')),
    );
    expect(check(JSON.parse(writeCase(sound)))).toBe(true);
    expect(check({ ...sound, side: 'both' })).toBe(false);
  });
});
