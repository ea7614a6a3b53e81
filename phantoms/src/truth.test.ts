import { describe, expect, test } from 'vitest';
import { magnificationAt, projected } from './beam.ts';
import { trueMarks } from './landmarks.ts';
import { condyleMeshes } from './leg.ts';
import { pointAt, pointCount } from './mesh.ts';
import { buildPhantom, plannedFilms } from './phantom.ts';
import { poseAtKnee } from './pose.ts';
import { back, chained, moved } from './space.ts';
import { boneTruth, femoralShiftMm, legTruth, projectedAngles, tibialShiftMm } from './truth.ts';

const ideal = (seed: number) => {
  const phantom = buildPhantom({ seed, vary: { ideal: true } });
  const scene = plannedFilms(phantom)[0]!.scene;
  return { phantom, scene, marks: trueMarks(scene) };
};

describe('truth is consistent with itself', () => {
  test('with ideal geometry the film shows the true angles within 0.05 degrees, replaced and native', () => {
    for (const seed of [1, 2, 3, 4, 5, 6, 7, 8]) {
      const { phantom, scene, marks } = ideal(seed);
      for (const s of scene.legs) {
        const { present } = legTruth(phantom[s.side], s.jlcaDeg);
        const seen = projectedAngles(scene, marks, s.side);
        for (const id of ['mldfa', 'mpta', 'jlca', 'hka'] as const)
          expect(Math.abs(seen[id]! - present[id]), `${id}, ${s.side}, seed ${seed}`).toBeLessThan(0.05);
      }
    }
  });

  test('true angles close: HKA = MPTA - mLDFA - JLCA, aLDFA = mLDFA - AMA', () => {
    for (const seed of [11, 12]) {
      const { phantom, scene } = ideal(seed);
      for (const s of scene.legs) {
        const { present, native } = legTruth(phantom[s.side], s.jlcaDeg);
        expect(present.hka).toBeCloseTo(present.mpta - present.mldfa - present.jlca, 3);
        expect(native.aldfa + native.ama).toBeCloseTo(native.mldfa, 3);
      }
    }
  });

  test('on the ideal film the landmarks of the native leg stand at their drawn distances from the tangent', () => {
    const { phantom, scene, marks } = ideal(21);
    const s = scene.legs.find((l) => !l.leg.inPlace)!;
    const leg = phantom[s.side];
    const mm = scene.beam.spacingMm / magnificationAt(scene.beam, moved(s.pose.femur, [0, 0, 0]));
    const one = (id: string) => marks.find((m) => m.landmark === id && m.side === s.side)!.points[0]!;
    const hip = projected(scene.beam, moved(s.pose.femur, leg.femur.at.headCentre));
    const knee = projected(scene.beam, moved(s.pose.femur, [0, 0, 0]));
    const l = Math.hypot(hip.x - knee.x, hip.y - knee.y);
    const up = { x: (hip.x - knee.x) / l, y: (hip.y - knee.y) / l };
    const height = (p: { x: number; y: number }) => ((p.x - knee.x) * up.x + (p.y - knee.y) * up.y) * mm;
    expect(height(one('adductor-tubercle'))).toBeCloseTo(leg.limb.adductorTubercleMm, 0.5);
    expect(height(one('medial-epicondyle'))).toBeCloseTo(leg.limb.medialEpicondyleMm, 0.5);
    expect(height(one('lateral-epicondyle'))).toBeCloseTo(leg.limb.lateralEpicondyleMm, 0.5);
  });

  test('a component raised by 7 mm stands 7 mm over the native joint line, and the bone under it where it says', () => {
    const { right } = buildPhantom({
      seed: 4,
      vary: { side: 'right', jointline: 7, femoralloss: 3, insert: 10, subsidence: 2 },
    });
    expect(femoralShiftMm(right)).toBeCloseTo(7, 0);
    // Cut 9 mm under the joint line, tray 4 mm, insert 10 mm, sunk 2 mm: 10 + 4 - 9 - 2 = 3 mm over it.
    expect(tibialShiftMm(right)).toBeCloseTo(3, 0);
    const bone = boneTruth(right)!;
    const { D } = bone.symbols;
    // Component 9 mm thick, 3 mm lost medially and half as much laterally.
    expect((D.medial + D.lateral) / 2).toBeCloseTo(7 + 9 + 2.25, 0);
    const { e } = bone.symbols;
    const opening = (bone.openingExtensionMm.medial + bone.openingExtensionMm.lateral) / 2;
    expect(opening).toBeCloseTo((e.medial + e.lateral) / 2 + bone.present.J - bone.present.K, 3);
  });

  test('surfaces touch: whatever the flexion, the metal rests on the insert and nowhere sinks into it', () => {
    const { left: leg } = buildPhantom({ seed: 9, vary: { side: 'left', insert: 11 } });
    const { medial, lateral } = condyleMeshes(leg);
    const { trayAt, replacement } = leg.inPlace!;
    for (const flexion of [0, 15, 30, 60]) {
      const { tibia } = poseAtKnee(leg, flexion, 0);
      const intoTray = back(chained(trayAt, tibia));
      const heights = [medial, lateral].map((mesh) =>
        Math.min(...Array.from({ length: pointCount(mesh) }, (_, i) => moved(intoTray, pointAt(mesh, i))[2])),
      );
      // The insert is level in the model's eye; the slope over the contact is all that may differ.
      for (const h of heights) expect(Math.abs(h - replacement.insertMm)).toBeLessThan(1);
    }
  });
});
