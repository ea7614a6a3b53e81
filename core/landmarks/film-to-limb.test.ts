import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { point } from '../plane/point.ts';
import { coronalFrame, type FilmOrientation, sagittalFrame, toFilm, toLimb } from './film-to-limb.ts';
import type { Side } from './side.ts';
import type { ColumnDirection } from './view.ts';

const ap = (side: Side, columnsTowards?: ColumnDirection, pixelAspect: number | null = 1): FilmOrientation => ({
  film: 'f1',
  view: 'ap',
  side,
  columnsTowards,
  pixelAspect,
});
const lateral = (columnsTowards?: ColumnDirection): FilmOrientation => ({
  ...ap('left', columnsTowards),
  view: 'lateral',
});
const code = (o: { ok: true } | { ok: false; reason: { code: string } }) => (o.ok ? 'ok' : o.reason.code);

describe('film to limb', () => {
  // A right knee on a film that shows the patient's right at the viewer's left: lateral lies at the viewer's left.
  test.each([
    ['right', 'patient-left', -10],
    ['left', 'patient-left', 10],
    ['right', 'patient-right', 10],
    ['left', 'patient-right', -10],
  ] as const)('LM-1 %s knee, columns towards %s: 10 px to the right is x = %s', (side, columns, x) => {
    const t = coronalFrame(ap(side, columns));
    if (!t.ok) throw new Error(t.reason.code);
    expect(toLimb(t.value, point('film', 10, 4))).toEqual(point('coronal', x, -4));
  });
  test.each([
    ['anterior', 10],
    ['posterior', -10],
  ] as const)('LM-2 lateral film, columns towards %s: 10 px to the right is x = %s', (columns, x) => {
    const t = sagittalFrame(lateral(columns));
    if (!t.ok) throw new Error(t.reason.code);
    expect(toLimb(t.value, point('film', 10, 4))).toEqual(point('sagittal', x, -4));
  });
  test('rows run down, proximal is up; tall pixels stretch y alone', () => {
    const t = coronalFrame(ap('left', 'patient-left', 1.5));
    if (!t.ok) throw new Error(t.reason.code);
    expect(toLimb(t.value, point('film', 0, 2))).toEqual(point('coronal', 0, -3));
  });
  test('there and back is the same point', () => {
    const coordinate = fc.double({ min: -1e4, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(
        coordinate,
        coordinate,
        fc.constantFrom<Side>('left', 'right'),
        fc.double({ min: 0.5, max: 2, noNaN: true }),
        (x, y, side, aspect) => {
          const t = coronalFrame(ap(side, 'patient-left', aspect));
          if (!t.ok) throw new Error(t.reason.code);
          const back = toFilm(t.value, toLimb(t.value, point('film', x, y)));
          expect(Math.hypot(back.x - x, back.y - y)).toBeLessThan(1e-9);
        },
      ),
    );
  });
  test('LM-3 an unknown direction is refused with field and mend, never guessed', () => {
    for (const refused of [
      coronalFrame(ap('left')),
      coronalFrame(ap('left', 'anterior')),
      sagittalFrame(lateral()),
      sagittalFrame(lateral('patient-left')),
    ]) {
      expect(code(refused)).toBe('orientation-unknown');
      if (!refused.ok) {
        expect(refused.reason.field).toBe('films[f1].columnsTowards');
        expect(refused.reason.mend).toMatch(/patient-left or patient-right|anterior or posterior/);
      }
    }
  });
  test('LM-3 unknown or impossible pixel shape is refused: not even angles', () => {
    for (const aspect of [null, 0, -1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(code(coronalFrame(ap('left', 'patient-left', aspect)))).toBe('pixel-shape-unknown');
  });
  test('LM-3 a lateral film is no AP film, nor the other way round', () => {
    expect(code(coronalFrame(lateral('anterior')))).toBe('wrong-view');
    expect(code(sagittalFrame(ap('left', 'patient-left')))).toBe('wrong-view');
    expect(code(coronalFrame({ ...ap('left', 'patient-left'), view: 'skyline' }))).toBe('wrong-view');
  });
});
