import { describe, expect, test } from 'vitest';
import { readLucentProgress } from '../failure/lucent-lines.ts';
import { leastTold } from '../failure/migration.ts';
import { knownCase } from '../landmarks/known-knee.ts';
import { coronalFilm } from '../landmarks/limb-film.ts';
import type { Mark } from '../landmarks/mark.ts';
import type { InterfaceSpan } from '../limb/interface-span.ts';
import { spanWidth, trayZone, widestByZone } from '../limb/interface-span.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import { compareCase, datesOf, whyNoDates } from './compare-case.ts';
import { editableField } from './editable-fields.ts';
import { movedComponents } from './moved-components.ts';

const KNOWN = knownCase();
const MM = 0.14;
const filmOf = (f: (typeof KNOWN.films)[number], id: string, takenOn: string, role: CaseFilm['role']): CaseFilm => ({
  ...f,
  id,
  file: `${id}.dcm`,
  takenOn,
  role,
  scaleFacts: { volumetric: false, rows: 8000, columns: 3000, derived: false },
  scale:
    f.view === 'ap' || f.view === 'long-leg'
      ? { kind: 'known-implant', part: 'tray', side: 'right', widthMm: 70.1 }
      : { kind: 'stated-spacing', mmPerPx: MM, from: 'the example' },
});
const PX_DOWN = 5 / MM;

/** The known knee filmed twice; by the second date its tray sank by 5 mm. Marks are moved into the picture where they would leave it. */
const onDate = (suffix: string, sunkPx: number): readonly Mark[] =>
  KNOWN.marks.map((m) => ({
    ...m,
    film: `${m.film}${suffix}`,
    points: m.points.map((p) => ({
      x: p.x,
      y: p.y + 1000 + (m.side === 'right' && m.landmark.startsWith('tray-') && !m.film.endsWith('us') ? sunkPx : 0),
    })),
  }));
const twice: CaseFile = {
  format: 'gapline-case',
  version: '1.0',
  id: 'twice',
  title: 'Twice',
  side: 'right',
  patient: {},
  films: [
    ...KNOWN.films.map((f) => filmOf(f, `${f.id}-21`, '2021-05-04', 'after-first-replacement')),
    ...KNOWN.films.map((f) => filmOf(f, `${f.id}-25`, '2025-03-10', 'present')),
  ],
  marks: [...onDate('-21', 0), ...onDate('-25', PX_DOWN)],
  implants: { insertMm: 10 },
};

const span = (id: string, film: string, zone: number, widthMm: number): InterfaceSpan => ({
  id,
  kind: 'lucent-line',
  component: 'tibia-ap',
  zone,
  film,
  from: { x: 800, y: 1500 },
  to: { x: 800, y: 1500 + widthMm / MM },
});

describe('two dates of one case', () => {
  test('CMP-1 days with their films, oldest first; films from before the first replacement and undated ones belong to none', () => {
    expect(datesOf(twice).map((d) => [d.on, d.films.length])).toEqual([
      ['2021-05-04', 6],
      ['2025-03-10', 6],
    ]);
    expect(whyNoDates(twice)).toBeNull();
    const { takenOn: _, ...undated } = twice.films[0]!;
    const one = { ...twice, films: [undated, ...twice.films.slice(6)], marks: [] };
    expect(datesOf(one)).toHaveLength(1);
    expect(whyNoDates(one)).toContain('1 film carries none');
  });
  test('CMP-7 the tray sank by 5 mm, everything of the femur stays', () => {
    const c = compareCase(twice, '2021-05-04', '2025-03-10');
    const line = (id: string) => c.lines.find((l) => l.id === id);
    expect(line('tray-height')?.change.value).toBeCloseTo(-5, 1);
    expect(line('tray-height')?.movement?.reading).toBe('moved');
    expect(line('mldfa')?.change.value).toBeCloseTo(0, 9);
    expect(c.conflicts).toEqual([]);
  });
  test('CAUSE-4 and that is evidence of movement, with its words and days', () => {
    const [moved] = movedComponents(twice);
    expect(moved?.because).toMatch(
      /^Tray moved along the tibia by 5\.0 \+\/- \d\.\d mm between 2021-05-04 and 2025-03-10/,
    );
    expect(movedComponents({ ...twice, marks: [...onDate('-21', 0), ...onDate('-25', 0)] })).toEqual([]);
  });
  test('CMP-8 a lucent line that grew from 1 to 3 mm: the zone grew, the component progresses', () => {
    const file = {
      ...twice,
      interfaceSpans: [span('a', 'ap-21', 1, 1), span('b', 'ap-25', 1, 3), span('c', 'ap-25', 1, 2)],
    };
    const [lines] = compareCase(file, '2021-05-04', '2025-03-10').lucentLines;
    expect(lines).toMatchObject({ component: 'tibia-ap', progress: { progressing: true } });
    expect(lines?.progress.zones[0]?.changeMm).toBeCloseTo(2, 1);
  });
});

describe('widths across an interface', () => {
  const { films, marks, calibrations } = KNOWN;
  test('LIMB-37 LIMB-38 2.1 mm with the spread of both edges and the scale; the widest of a zone counts', () => {
    const one = spanWidth(span('a', 'ap', 2, 2.1), KNOWN);
    expect(one.ok && one.value.widthMm).toBeCloseTo(2.1, 9);
    expect(one.ok && one.value.sdMm).toBeCloseTo(Math.hypot(Math.SQRT2 * 0.3, 0.01 * 2.1), 9);
    const zones = widestByZone([span('a', 'ap', 2, 1), span('b', 'ap', 2, 2), span('c', 'ap', 1, 0.5)], KNOWN, {
      kind: 'lucent-line',
      component: 'tibia-ap',
    });
    expect([...zones].map(([zone, w]) => [zone, w.span.id])).toEqual([
      [1, 'c'],
      [2, 'b'],
    ]);
    expect(widestByZone([span('a', 'ap', 2, 1)], KNOWN, { kind: 'cement-mantle', component: 'tibia-ap' }).size).toBe(0);
  });
  test('LIMB-37 another view, no such film, no scale, no number: refused', () => {
    const code = (s: InterfaceSpan, e = KNOWN) => {
      const w = spanWidth(s, e);
      return w.ok ? 'ok' : w.reason.code;
    };
    expect(code(span('a', 'lat', 1, 1))).toBe('span-on-other-view');
    expect(code(span('a', 'none', 1, 1))).toBe('span-on-no-film');
    expect(code(span('a', 'ap', 1, 1), { ...KNOWN, calibrations: new Map() })).toBe('no-scale');
    expect(code(span('a', 'ap', 1, Number.NaN))).toBe('not-a-finite-number');
  });
  test('LIMB-37 zones under a tray from medial to lateral, and about its stem', () => {
    const film = films.find((f) => f.id === 'ap')!;
    const seen = coronalFilm({ film, side: 'right', marks, calibration: calibrations.get('ap') });
    if (!seen.ok) throw new Error(seen.reason.code);
    // Lateral lies to the left on a film of a right knee: column 900 is the middle of the limb, row 1400 its joint line.
    const zone = (lateralMm: number, belowMm: number) =>
      trayZone(seen.value, { x: 900 - lateralMm / MM, y: 1400 + belowMm / MM });
    expect([-30, -10, 10, 30].map((x) => zone(x, 16))).toEqual([1, 2, 3, 4]);
    expect([-10, 0, 10].map((x) => zone(x, 40))).toEqual([5, 6, 7]);
  });
  test('LIMB-37 an edit takes a list of them, and only zones that the component has', () => {
    const field = editableField('/interfaceSpans');
    const takes = (v: unknown) => field?.kind === 'value' && field.accepts(v);
    expect(takes([span('a', 'ap', 7, 1)])).toBe(true);
    expect(takes([{ ...span('a', 'lat', 4, 1), component: 'tibia-lateral' }])).toBe(false);
    expect(takes([{ ...span('a', 'ap', 1, 1), zone: 0 }])).toBe(false);
  });
});

describe('CMP-8 lucent lines on two dates', () => {
  const zone = (widthMm: number) => ({ widthMm, sdMm: 0.2 });
  test('still only where every zone was seen twice and 1 mm of growth would have been told', () => {
    const all = Array.from({ length: 3 }, () => zone(0.5));
    const read = (a: Parameters<typeof readLucentProgress>[0], b: typeof a) => {
      const r = readLucentProgress(a, b);
      return r.ok ? r.value.progressing : r.reason.code;
    };
    expect(read(all, all)).toBe(false);
    expect(read(all, [...all.slice(1), null])).toBeNull();
    expect(read(all, all.with(1, zone(1.5)))).toBe(true);
    expect(read(all, all.with(1, zone(1.0)))).toBeNull();
    expect(read(all, all.slice(1))).toBe('zones-do-not-match');
  });
  test('CMP-7 the least change that is told is 1.96 standard deviations', () =>
    expect(leastTold(1)).toBeCloseTo(1.96, 2));
});
