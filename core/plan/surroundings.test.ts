import { describe, expect, test } from 'vitest';
import { squareKnee } from '../../cases/square-knee.ts';
import { readWorkUp } from '../work-up/read-work-up.ts';
import type { CaseFile } from './case.ts';
import { makePlan } from './make-plan.ts';
import { movedComponents } from './moved-components.ts';
import { surroundingsOf } from './surroundings.ts';

const TODAY = '2026-11-01';
const around = (file: CaseFile) => surroundingsOf(file, makePlan(file, null), TODAY);
const found = (file: CaseFile, id: string) => around(file).measured.find((m) => m.id === id);

const frontOf = (file: CaseFile) => file.films.find((f) => f.view !== 'lateral')!;

/** The tray's two edges pushed apart vertically: tilted, varus where the medial edge sinks. */
const tilted = (file: CaseFile, pixels: number, film = frontOf(file).id): CaseFile => ({
  ...file,
  marks: file.marks.map((m) =>
    m.landmark === 'tray-medial-edge' && m.film === film
      ? { ...m, points: m.points.map((p) => ({ x: p.x, y: p.y + pixels })) }
      : m,
  ),
});

describe('what the case adds to the work-up', () => {
  test('WU-9 openings, classes and ligaments come from the case, nothing from films without a plan', () => {
    const file = squareKnee();
    const s = surroundingsOf(file, null, TODAY);
    expect(s.measured).toEqual([]);
    expect(s.extensionOpening).toEqual(file.examination?.openingExtensionMm);
    expect(s.bone).toMatchObject({ mcl: file.examination?.mcl });
    expect(surroundingsOf({ ...file, examination: {}, bone: {} }, null, TODAY).bone).toEqual({});
  });

  test('WU-9 the joint line and its spread reach the evidence with their film', () => {
    const file = squareKnee();
    const plan = makePlan(file, null);
    if (!plan.jointLine.femoral.ok) throw new Error('no joint line');
    const { shiftMm } = plan.jointLine.femoral.value;
    const item = found(file, 'joint-line-shift-or-baja');
    expect(item?.because).toContain(`Joint line ${shiftMm.toFixed(1)} mm`);
    expect(item?.film).toBe(plan.jointLine.femoral.value.opinions[0]?.film);
  });

  test('WU-9 the tray angle is turned to 90 = square: a square tray accuses nobody, one 8 degrees off does', () => {
    const square = makePlan(squareKnee(), null).measurements.find((m) => m.id === 'tray-coronal' && m.side === 'right');
    expect(Math.abs(square?.value ?? 99)).toBeLessThan(1);
    expect(found(squareKnee(), 'alignment-outlier-over-3')?.looked).not.toBe('present');
    // 72 mm wide, 0.2 mm a pixel: 50 pixels are 10 mm, 7.9 degrees.
    const item = found(tilted(squareKnee(), 50), 'alignment-outlier-over-3');
    expect(item?.looked).toBe('present');
    expect(item?.because).toMatch(/tray 8[12]\.\d deg/);
  });

  test('WU-9 a tray that tilted between two dates is migration; the same tray twice is not', () => {
    const now = squareKnee();
    const ap = frontOf(now);
    const earlier = {
      ...ap,
      id: 'first',
      file: 'first.dcm',
      sha256: 'f'.repeat(64),
      role: 'after-first-replacement' as const,
      takenOn: '2014-06-01',
    };
    const both: CaseFile = {
      ...now,
      films: [...now.films, earlier],
      marks: [...now.marks, ...now.marks.filter((m) => m.film === ap.id).map((m) => ({ ...m, film: 'first' }))],
    };
    expect(movedComponents(both)).toEqual([]);
    const moved = movedComponents(tilted(both, 50, ap.id));
    expect(moved).toMatchObject([{ id: 'subsidence-tilt-or-cement-fracture', looked: 'present', film: ap.id }]);
    expect(moved[0]?.because).toMatch(/Tray tilted by 7\.\d \+\/- \d\.\d deg between 2014-06-01/);
    expect(movedComponents(now)).toEqual([]);
  });

  test('WU-9 the whole goes through the reading of the work-up', () => {
    const reading = readWorkUp({}, around(tilted(squareKnee(), 50)));
    const item = reading.evidence.find((e) => e.id === 'alignment-outlier-over-3');
    expect(item).toMatchObject({ looked: 'present', from: 'films' });
    expect(reading.causes.find((c) => c.id === 'malalignment')?.supports.map((s) => s.id)).toContain(
      'alignment-outlier-over-3',
    );
  });
});
