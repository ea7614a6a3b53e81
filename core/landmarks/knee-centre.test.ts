import { describe, expect, test } from 'vitest';
import { FEMORAL_LINE, FEMORAL_SHAFT, TIBIAL_SHAFT, tibialLine } from './bony-lines.ts';
import { type CentreOption, F1, F2, F3, femoralCentres, T1, T2, T3, tibialCentres } from './knee-centre.ts';
import { knownCase, NATIVE_AP, REPLACED_AP } from './known-knee.ts';
import { type KnownPoints, knownMarks, knownScale } from './known-marks.ts';
import { coronalFilm } from './limb-film.ts';
import { shakable } from './reading.ts';

const MM = { x: 0.25, y: 0.25 };

/** Centre in mm of the limb's frame, whose origin is that of the known points. */
function centre(option: CentreOption, points: KnownPoints = REPLACED_AP): readonly [number, number] {
  const [film] = knownCase().films;
  if (!film) throw new Error('film');
  const on = { film: film.id, side: 'left', columnsTowards: 'patient-left', mmPerPx: MM, originPx: [0, 0] } as const;
  const made = coronalFilm({ film, side: 'left', marks: knownMarks(points, on), calibration: knownScale(MM) });
  if (!made.ok) throw new Error(made.reason.code);
  const c = option.centre(shakable(made.value, option.inputs).reading);
  if (!c.ok) throw new Error(c.reason.code);
  return [c.value.x * MM.x, c.value.y * MM.y];
}

const near = (x: number, y: number) => [expect.closeTo(x, 9), expect.closeTo(y, 9)];

describe('LIMB-2 knee centres', () => {
  test('F1: middle of the component, brought onto the distal tangent', () => expect(centre(F1)).toEqual(near(0, 0)));
  test('F2: the notch', () => expect(centre(F2)).toEqual(near(0.5, 8)));
  test('F3: middle of the epicondyles, brought onto the distal tangent', () => expect(centre(F3)).toEqual(near(0, 0)));
  test('F3 with a tangent that leans: square onto it', () => {
    // Middle of the epicondyles (0, 22.25); tangent through (-22, 0) and (22, 4.4), rising 1 in 10.
    const t = (-22 * -1 + 22.25 * 0.1) / 1.01;
    const leaning = { ...REPLACED_AP, 'lateral-condyle-distal': [22, 4.4] } as const;
    expect(centre(F3, leaning)).toEqual(near(-22 + t, 0.1 * t));
  });
  test('T1: middle of the tray; T2: middle of the cortices', () => {
    expect(centre(T1)).toEqual(near(0, -10));
    expect(centre(T2)).toEqual(near(0, -14.5));
  });
  test('T3: the shaft drawn up to the tray', () => expect(centre(T3)).toEqual(near(0, -10)));
  test('native: notch and spines', () => {
    const [femoral, tibial] = [femoralCentres('native')[0], tibialCentres('native')[0]];
    if (!femoral || !tibial) throw new Error('options');
    expect(centre(femoral, NATIVE_AP)).toEqual(near(0, 8));
    expect(centre(tibial, NATIVE_AP)).toEqual(near(0, 5));
  });
  test('with components in place: F1, F2, F3 and T1, T2, T3 in that order', () => {
    expect(femoralCentres('replaced').map((o) => o.id)).toEqual(['F1', 'F2', 'F3']);
    expect(tibialCentres('replaced').map((o) => o.id)).toEqual(['T1', 'T2', 'T3']);
  });
});

test('lines name the marks that span them', () => {
  expect(FEMORAL_LINE.inputs).toEqual(['medial-condyle-distal', 'lateral-condyle-distal']);
  expect(tibialLine('replaced').inputs).toEqual(['tray-medial-edge', 'tray-lateral-edge']);
  expect(tibialLine('native').inputs).toEqual(['medial-plateau', 'lateral-plateau']);
  expect([FEMORAL_SHAFT.inputs.length, TIBIAL_SHAFT.inputs.length]).toEqual([4, 4]);
});
