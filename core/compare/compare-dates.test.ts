import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { knownCase } from '../landmarks/known-knee.ts';
import { knownScale } from '../landmarks/known-marks.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { landmark } from '../landmarks/landmark-table.ts';
import { meanAndSd, normalDraws } from '../measure/normal-draws.ts';
import { Z95 } from '../measure/quantity.ts';
import { changeOf } from './change-of.ts';
import { type Comparison, compareDates } from './compare-dates.ts';
import type { DatedEvidence } from './dated-evidence.ts';
import { FILM_TO_FILM } from './film-to-film.ts';
import { METAL_WIDTHS, MOVEMENT_LIMITS } from './movement-limits.ts';

const MM = 0.14;
const scaleObjects = new Map(['long', 'ap'].map((film) => [film, 'tray right']));
const first: DatedEvidence = { date: '2021-05-04', evidence: knownCase(), scaleObjects };
const second: DatedEvidence = { ...first, date: '2025-03-10' };

const line = (c: Comparison, id: string) => {
  const found = c.lines.find((l) => l.id === id);
  if (!found) throw new Error(`${id} is not compared: ${c.notCompared.find((n) => n.id === id)?.why ?? 'nowhere'}`);
  return found;
};

/** The date with some landmarks of the right knee moved up on every film, mm. */
const raised = (dated: DatedEvidence, upMm: number, ids: readonly LandmarkId[]): DatedEvidence => ({
  ...dated,
  evidence: {
    ...dated.evidence,
    marks: dated.evidence.marks.map((m) =>
      m.side === 'right' && ids.includes(m.landmark)
        ? { ...m, points: m.points.map((p) => ({ x: p.x, y: p.y - upMm / MM })) }
        : m,
    ),
  },
});

const TRAY: readonly LandmarkId[] = ['tray-medial-edge', 'tray-lateral-edge'];

describe('two dates of one knee', () => {
  const same = compareDates(first, second);
  test('CMP-1 the same films twice: no change, nothing larger, nothing moved, every measured quantity compared', () => {
    expect(same.lines.length).toBeGreaterThan(45);
    for (const l of same.lines) {
      expect(Math.abs(l.change.value)).toBeLessThan(1e-9);
      expect([l.larger, l.holds]).toEqual([false, false]);
      expect(l.movement?.reading).not.toBe('moved');
    }
    expect(same.notCompared).toEqual([]);
    expect(same.conflicts).toEqual([]);
  });
  test('CMP-1 CMP-7 a tray that sank by 8 mm is larger, holds and has moved; the femur stays', () => {
    const c = compareDates(first, raised(second, -8, TRAY));
    const tray = line(c, 'tray-height');
    expect(tray.change.value).toBeCloseTo(-8, 1);
    expect(tray).toMatchObject({ larger: true, holds: true, movement: { limit: 2, reading: 'moved' } });
    expect(line(c, 'femoral-component-height')).toMatchObject({ larger: false });
  });
  test('CMP-7 sunk by 2.2 mm reaches the limit but not its uncertainty: within error, never moved', () =>
    expect(line(compareDates(first, raised(second, -2.2, TRAY)), 'tray-height').movement?.reading).toBe(
      'within-error',
    ));
  test('CMP-1 the older and the newer exchanged: every change turns its sign, every spread stays', () => {
    const later = raised(second, -3, TRAY);
    const [there, back] = [compareDates(first, later), compareDates(later, first)];
    for (const l of there.lines) {
      expect(line(back, l.id).change.value).toBeCloseTo(-l.change.value, 9);
      expect(line(back, l.id).change.sd).toBeCloseTo(l.change.sd, 9);
    }
  });
  test('CMP-1 landmarks that one date lacks are not used on the other either', () => {
    const without = {
      ...second.evidence,
      marks: second.evidence.marks.filter((m) => m.landmark !== 'adductor-tubercle'),
    };
    const c = compareDates(first, { ...second, evidence: without });
    const height = line(c, 'femoral-component-height');
    expect(height.change.value).toBeCloseTo(0, 9);
    expect(height.before.value).toBeCloseTo(height.now.value, 9);
  });
  test('CMP-1 what one date lacks is named with what is missing', () => {
    const c = compareDates(first, {
      ...second,
      evidence: { ...second.evidence, films: second.evidence.films.filter((f) => f.id !== 'sky') },
    });
    expect(c.notCompared.find((n) => n.id === 'patellar-tilt')?.why).toMatch(/^2025-03-10: /);
  });
  test('CMP-1 another knee is refused', () => {
    const c = compareDates(first, { ...second, evidence: knownCase('left') });
    expect(c.lines).toEqual([]);
    expect(c.conflicts[0]?.code).toBe('other-side');
  });
  test('CMP-1 where no view is common, the views are said to differ', () => {
    const only = (d: DatedEvidence, id: string) => ({
      ...d,
      evidence: { ...d.evidence, films: d.evidence.films.filter((f) => f.id === id) },
    });
    const c = compareDates(only(first, 'long'), only(second, 'ap'));
    expect(line(c, 'aldfa').flags.map((f) => f.code)).toContain('views-differ');
  });
});

describe('CMP-2 CMP-3 spread of a change', () => {
  test('CMP-3 the true width of the same tray falls out; with different objects it does not', () => {
    const [alike, apart] = [compareDates(first, second), compareDates(first, { ...second, scaleObjects: new Map() })];
    const width = line(alike, 'epicondylar-width').change;
    expect(width.shared).toContain('true width of the implant that gave both scales');
    expect(width.sd).toBeLessThan(line(apart, 'epicondylar-width').change.sd);
    // 0.7 % of 82 mm on both dates is what falls out.
    expect(line(apart, 'epicondylar-width').change.sd ** 2 - width.sd ** 2).toBeCloseTo(2 * (0.007 * 82) ** 2, 1);
  });
  test('CMP-3 the insert falls out while it is the same; exchanged it counts twice', () => {
    const exchanged = { ...second, evidence: { ...second.evidence, implants: { insertMm: 10.0001 } } };
    const [alike, apart] = [compareDates(first, second), compareDates(first, exchanged)].map(
      (c) => line(c, 'patellar-height').change,
    );
    expect(alike?.shared).toContain('thickness of the insert');
    expect((apart?.sd ?? 0) ** 2 - (alike?.sd ?? 0) ** 2).toBeCloseTo(2 * 0.5 ** 2, 2);
  });
  test('CMP-3 an angle shares nothing: its spread is that of both and of both films', () => {
    const hka = line(compareDates(first, second), 'hka');
    expect(hka.change.shared).toEqual([]);
    expect(hka.change.sd).toBeCloseTo(Math.hypot(hka.before.sd, hka.now.sd, Math.SQRT2 * (FILM_TO_FILM.hka ?? 0)), 9);
  });
  test('CMP-2 never less than nothing and never more than unshared', () => {
    for (const l of compareDates(first, second).lines) {
      expect(l.change.sd).toBeGreaterThan(0);
      expect(l.change.sd).toBeLessThanOrEqual(l.change.sdUnshared + 1e-9);
    }
  });
  test('CMP-4 a quantity whose film-to-film spread is not known says so', () => {
    const codes = (id: string) => line(compareDates(first, second), id).flags.map((f) => f.code);
    expect(codes('patellar-tilt')).toContain('film-to-film-not-known');
    expect(codes('hka')).not.toContain('film-to-film-not-known');
  });
  test('CMP-2 a value without a spread gives no change', () => {
    const bare = { ...line(compareDates(first, second), 'hka') };
    const m = {
      id: 'hka',
      label: '',
      side: 'right',
      value: bare.now.value,
      unit: 'deg',
      sd: null,
      sign: '',
      film: 'long',
      scale: 'not-needed',
      inputs: [],
      rule: '',
      source: '',
      flags: [],
    } as const;
    expect(changeOf(m, m, [first, second])).toBeNull();
  });

  /** One tray of slightly wrong label gives both scales; marks are placed anew each time; insert labelled once for both. */
  function draw(next: () => number): readonly [DatedEvidence, DatedEvidence] {
    const label = 1 + 0.007 * next();
    const insert = 10 + 0.5 * next();
    const dated = (d: DatedEvidence): DatedEvidence => {
      const edges = 0.0071414;
      const calibrations = new Map(
        [...d.evidence.calibrations].map(([film]) => {
          const times = MM * label * (1 + edges * next());
          return [film, knownScale({ x: times, y: times })] as const;
        }),
      );
      const marks = d.evidence.marks.map((m) => {
        const sd = landmark(m.landmark).markingSdMm / MM;
        return { ...m, points: m.points.map((p) => ({ x: p.x + sd * next(), y: p.y + sd * next() })) };
      });
      const objects = new Map([...calibrations.keys()].map((film) => [film, 'tray right']));
      return {
        ...d,
        scaleObjects: objects,
        evidence: { ...d.evidence, marks, calibrations, implants: { insertMm: insert } },
      };
    };
    return [dated(first), dated(second)];
  }

  test('CMP-2 CMP-3 120 draws of both dates with a shared label: the 95 % interval of the change holds no change in 92 to 98 %', () => {
    const next = normalDraws(77);
    const ids = [
      'hka',
      'mldfa',
      'tray-height',
      'epicondylar-width',
      'patellar-height',
      'component-gamma',
      'tibial-bone-width',
    ];
    const changes = Array.from({ length: 120 }, () => compareDates(...draw(next))).flatMap((c) =>
      ids.map((id) => line(c, id).change),
    );
    // Marks are drawn, films are not taken anew here: what the film adds is left out of the interval.
    const own = (c: (typeof changes)[number]) => Math.sqrt(c.sd ** 2 - (c.filmToFilm ?? 0) ** 2);
    const hits = changes.filter((c) => Math.abs(c.value) <= Z95 * own(c)).length / changes.length;
    expect(hits).toBeGreaterThan(0.92);
    expect(hits).toBeLessThan(0.98);
    // In units of the stated spread the changes scatter by 1.
    expect(Math.abs(meanAndSd(changes.map((c) => c.value / own(c))).sd - 1)).toBeLessThan(0.12);
  });
});

describe('CMP-5 many lines at once', () => {
  test('whatever changed, a change that holds is larger too, and the clearest of the larger ones holds first', () => {
    fc.assert(
      fc.property(fc.double({ min: -6, max: 6, noNaN: true }), (up) => {
        const c = compareDates(first, raised(second, up, TRAY));
        const z = (l: (typeof c.lines)[number]) => Math.abs(l.change.value) / l.change.sd;
        const holding = c.lines.filter((l) => l.holds);
        const others = c.lines.filter((l) => !l.holds);
        for (const l of holding) expect(l.larger).toBe(true);
        for (const h of holding) for (const o of others) expect(z(h)).toBeGreaterThanOrEqual(z(o));
      }),
      { numRuns: 25 },
    );
  });
});

describe('CMP-6 metal does not grow', () => {
  test('a film with a scale 8 % off shows in the tray, is in conflict, and widths of metal are no line', () => {
    const wrong = new Map([
      ...second.evidence.calibrations,
      ['long', knownScale({ x: MM * 1.08, y: MM * 1.08 })],
      ['ap', knownScale({ x: MM * 1.08, y: MM * 1.08 })],
    ]);
    const c = compareDates(first, { ...second, evidence: { ...second.evidence, calibrations: wrong } });
    expect(c.conflicts.map((w) => w.code)).toContain('metal-changed');
    expect(c.lines.filter((l) => METAL_WIDTHS.includes(l.id))).toEqual([]);
  });
});

test('CMP-7 every limit belongs to a quantity that is compared', () => {
  const compared = compareDates(first, second).lines.map((l) => l.id);
  for (const id of Object.keys(MOVEMENT_LIMITS)) expect(compared).toContain(id);
});
