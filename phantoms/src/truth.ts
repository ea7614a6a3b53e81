import type { Side } from '@gapline/core/landmarks/side.ts';
import { magnificationAt, type Pixel } from './beam.ts';
import { CARTILAGE_MM, farthest } from './bone.ts';
import { posteriorOffset, shaftAngleDeg } from './femur.ts';
import type { TrueMark } from './landmarks.ts';
import { condyleMeshes, type Leg } from './leg.ts';
import type { Mesh } from './mesh.ts';
import { presentAngles } from './pose.ts';
import type { Scene } from './scene.ts';
import { deg, length, minus, moved, rad } from './space.ts';

const rounded = (v: number): number => Math.round(v * 1e4) / 1e4;
const roundedAll = <T extends Record<string, number>>(o: T): T =>
  Object.fromEntries(Object.entries(o).map(([k, v]) => [k, rounded(v)])) as T;

/** Where the present femoral bearing stands over the native joint line at the mechanical axis, mm, + = raised. */
export function femoralShiftMm(leg: Leg): number {
  const r = leg.inPlace?.replacement;
  if (!r) return 0;
  const tilt = rad(90 - r.femurAngleDeg);
  const down = [Math.sin(tilt), 0, -Math.cos(tilt)] as const;
  const { medial, lateral } = condyleMeshes(leg);
  const level = [medial, lateral].map((m) => {
    const p = farthest(m, down);
    return p[2] - Math.tan(tilt) * p[0];
  });
  return (level[0]! + level[1]!) / 2;
}

/** Where the present tibial bearing stands over the native joint line at the mechanical axis, mm, + = proximal. */
export function tibialShiftMm(leg: Leg): number {
  if (!leg.inPlace) return 0;
  const { replacement: r, trayAt } = leg.inPlace;
  return moved(trayAt, [0, 0, r.insertMm])[2] + Math.tan(rad(r.trayVarusDeg)) * -moved(trayAt, [0, 0, r.insertMm])[0];
}

/** The bone and the ligaments as they truly are: symbols of the frames-and-gaps page, section 3. */
export function boneTruth(leg: Leg) {
  const { inPlace, limb } = leg;
  if (!inPlace) return null;
  const { replacement: r, femurFloor, tibiaCeiling, femur } = inPlace;
  const x = femur.condyleMiddleMm;
  const J = femoralShiftMm(leg);
  const K = tibialShiftMm(leg);
  const lean = Math.tan(rad(90 - r.femurAngleDeg));
  const tray = Math.tan(rad(r.trayVarusDeg));
  const open = (e: number, side: 1 | -1) => e + (J + side * x * lean) - (K + side * x * tray);
  const openFlexion = (f: number, side: 1 | -1) => f + r.forwardMm - (K + side * x * tray);
  return {
    symbols: {
      D: roundedAll({ medial: femurFloor(-x), lateral: femurFloor(x) }),
      P: roundedAll({ medial: inPlace.posteriorFloorMm, lateral: inPlace.posteriorFloorMm }),
      A0: rounded(leg.anteriorCortexY - leg.posteriorLineY),
      Wf: rounded(0.93 * limb.epicondylarWidthMm),
      Wt: rounded(limb.tibiaWidthMm),
      T: roundedAll({ medial: -tibiaCeiling(-0.25 * r.trayWidthMm), lateral: -tibiaCeiling(0.25 * r.trayWidthMm) }),
      e: roundedAll(r.extensionLaxityMm),
      f: roundedAll(r.flexionLaxityMm),
    },
    // The same seen from the femur's target line while the loaded surfaces touch: K there equals J.
    loadedFrame: {
      T: roundedAll({
        medial: -tibiaCeiling(-0.25 * r.trayWidthMm) - (J - K),
        lateral: -tibiaCeiling(0.25 * r.trayWidthMm) - (J - K),
      }),
      e: roundedAll({
        medial: r.extensionLaxityMm.medial + J - K,
        lateral: r.extensionLaxityMm.lateral + J - K,
      }),
      f: roundedAll({ medial: r.flexionLaxityMm.medial + J - K, lateral: r.flexionLaxityMm.lateral + J - K }),
    },
    present: { J: rounded(J), q: rounded(r.forwardMm), K: rounded(K) },
    openingExtensionMm: roundedAll({
      medial: open(r.extensionLaxityMm.medial, -1),
      lateral: open(r.extensionLaxityMm.lateral, 1),
    }),
    openingFlexionMm: roundedAll({
      medial: openFlexion(r.flexionLaxityMm.medial, -1),
      lateral: openFlexion(r.flexionLaxityMm.lateral, 1),
    }),
  };
}

const presentCondyles = (leg: Leg): Mesh[] => {
  const { medial, lateral } = condyleMeshes(leg);
  return leg.inPlace ? [medial, lateral] : [leg.femur.outer];
};

/** True angles and lengths of a leg in space, none of them measured on a film. */
export function legTruth(leg: Leg, jlcaDeg: number) {
  const { limb } = leg;
  const now = presentAngles(leg);
  const ama = shaftAngleDeg(leg.femur);
  return {
    native: roundedAll({
      mldfa: limb.mldfaDeg,
      mpta: limb.mptaDeg,
      jlca: limb.jlcaDeg,
      hka: limb.mptaDeg - limb.mldfaDeg - limb.jlcaDeg,
      aldfa: limb.mldfaDeg - ama,
      ama,
      slopeToMechanicalAxis: limb.slopeDeg,
    }),
    present: roundedAll({
      mldfa: now.mldfa,
      mpta: now.mpta,
      jlca: jlcaDeg,
      hka: now.mpta - now.mldfa - jlcaDeg,
      aldfa: now.mldfa - ama,
      ...(leg.inPlace
        ? {
            traySlopeToMechanicalAxis: leg.inPlace.replacement.traySlopeDeg,
            femoralFlexionToMechanicalAxis: leg.inPlace.replacement.femurFlexionDeg,
          }
        : {}),
    }),
    lengthsMm: roundedAll({
      femur: limb.femurMm,
      tibia: limb.tibiaMm,
      epicondylarWidth: limb.epicondylarWidthMm,
      femurAp: limb.femurApMm,
      tibiaWidth: limb.tibiaWidthMm,
      tibiaAp: limb.tibiaApMm,
      headDiameter: limb.headDiameterMm,
      bowRadius: limb.bowRadiusMm,
      femurCanal: limb.femurCanalMm,
      tibiaCanal: limb.tibiaCanalMm,
      posteriorCondylarOffsetBone: posteriorOffset(leg.femur.outer).offsetMm,
      posteriorCondylarOffsetPresent: posteriorOffset(leg.femur.outer, presentCondyles(leg)).offsetMm,
      headToNotch: length(minus(leg.femur.at.headCentre, leg.femur.at.notch)),
      spinesToAnkle: length(minus(leg.tibia.at.spines, leg.tibia.at.ankle)),
      patella: limb.patellaLengthMm,
      patellarTendon: limb.insallSalvati * limb.patellaLengthMm,
    }),
    jointLine: {
      level: 'cartilage; where it meets the mechanical axis',
      cartilageMm: CARTILAGE_MM,
      overNativeJointLineMm: roundedAll({
        adductorTubercle: limb.adductorTubercleMm,
        medialEpicondyle: limb.medialEpicondyleMm,
        lateralEpicondyle: limb.lateralEpicondyleMm,
      }),
      underNativeJointLineMm: roundedAll({ fibularTip: limb.fibularTipMm, tibialTubercle: limb.tubercleMm }),
      femoralShiftMm: rounded(femoralShiftMm(leg)),
      tibialShiftMm: rounded(tibialShiftMm(leg)),
    },
    bone: boneTruth(leg),
    replacement: leg.inPlace ? leg.inPlace.replacement : null,
  };
}

/** Angle of a film vector, in a frame with lateral (or the front) to the right and up upwards. */
const angle = (from: Pixel, to: Pixel, mirror: number): number =>
  deg(Math.atan2(from.y - to.y, mirror * (to.x - from.x)));
const wrapped = (d: number): number => ((((d + 180) % 360) + 360) % 360) - 180;
const mid = (a: Pixel, b: Pixel): Pixel => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });

/** Angles as the film shows them, from the true pixels: these differ from the true ones by rotation, flexion and the cone of the beam. */
export function projectedAngles(scene: Scene, marks: readonly TrueMark[], side: Side): Record<string, number> {
  const one = (id: string): Pixel | undefined => marks.find((m) => m.landmark === id && m.side === side)?.points[0];
  const mirror = side === 'left' ? 1 : -1;
  const out: Record<string, number> = {};
  const headMark = marks.find((m) => m.landmark === 'femoral-head' && m.side === side);
  const standing = scene.legs.find((s) => s.side === side);
  if (!headMark || !standing) return out;
  const head = {
    x: headMark.points.reduce((s, p) => s + p.x, 0) / headMark.points.length,
    y: headMark.points.reduce((s, p) => s + p.y, 0) / headMark.points.length,
  };
  const [m, l, tm, tl] = [
    one('medial-condyle-distal'),
    one('lateral-condyle-distal'),
    one('talus-medial'),
    one('talus-lateral'),
  ];
  const plateau = [
    one('tray-medial-edge') ?? one('medial-plateau'),
    one('tray-lateral-edge') ?? one('lateral-plateau'),
  ];
  const edges = [one('femoral-component-medial-edge'), one('femoral-component-lateral-edge')];
  if (!m || !l || !tm || !tl || !plateau[0] || !plateau[1]) return out;
  const kf = edges[0] && edges[1] ? mid(edges[0], edges[1]) : one('femoral-notch');
  const kt = edges[0] ? mid(plateau[0], plateau[1]) : one('tibial-spines');
  if (!kf || !kt) return out;
  const ankle = mid(tm, tl);
  const femoralLine = angle(m, l, mirror);
  const tibialLine = angle(plateau[0], plateau[1], mirror);
  const femur = angle(kf, head, mirror);
  const tibia = angle(kt, ankle, mirror);
  out.mldfa = rounded(wrapped(femur - femoralLine));
  out.mpta = rounded(wrapped(tibia - (tibialLine + 180)));
  out.jlca = rounded(wrapped(femoralLine - tibialLine));
  out.hka = rounded(wrapped(tibia - femur - 180));
  return out;
}

/** Ratios and angles of a side film from its true pixels. */
export function sideFilmValues(scene: Scene, marks: readonly TrueMark[]): Record<string, number> {
  const one = (id: string): Pixel | undefined => marks.find((m) => m.landmark === id)?.points[0];
  const d = (a: Pixel, b: Pixel) => Math.hypot(a.x - b.x, a.y - b.y);
  const [sp, ip, as, ai, t] = [
    'patella-superior-pole',
    'patella-inferior-pole',
    'patella-articular-superior',
    'patella-articular-inferior',
    'tibial-tubercle',
  ].map(one);
  const out: Record<string, number> = {};
  if (sp && ip && t) out.insallSalvati = rounded(d(ip, t) / d(sp, ip));
  if (as && ai && t) out.modifiedInsallSalvati = rounded(d(ai, t) / d(as, ai));
  const forward = scene.beam.along[1] > 0 ? 1 : -1;
  const [front, behind] = [one('plateau-anterior'), one('plateau-posterior')];
  const levels = ['proximal', 'distal'].map((level) => {
    const [a, p] = [one(`tibial-sagittal-${level}-anterior`), one(`tibial-sagittal-${level}-posterior`)];
    return a && p ? mid(a, p) : undefined;
  });
  if (front && behind && levels[0] && levels[1]) {
    const plate = angle(behind, front, forward);
    const axis = angle(levels[1], levels[0], forward);
    out.slopeToShaft = rounded(wrapped(plate - (axis - 90)));
  }
  return out;
}

/** What one film truly shows. */
export function filmTruth(scene: Scene, marks: readonly TrueMark[]) {
  const { beam } = scene;
  const knees = scene.legs.map((s) => {
    const knee = moved(s.pose.femur, [0, 0, 0]);
    const magnification = magnificationAt(beam, knee);
    return {
      side: s.side,
      magnificationAtKnee: rounded(magnification),
      mmPerPxAtKnee: Math.round((beam.spacingMm / magnification) * 1e7) / 1e7,
      flexionDeg: rounded(s.flexionDeg),
      rotationDeg: rounded(s.rotationDeg),
      projected: scene.view === 'lateral' ? sideFilmValues(scene, marks) : projectedAngles(scene, marks, s.side),
    };
  });
  return {
    view: scene.view,
    beam: {
      sourceToDetectorMm: scene.sourceToDetectorMm,
      objectToDetectorMm: rounded(scene.objectToDetectorMm),
      detectorSpacingMm: beam.spacingMm,
      sourceMm: beam.source.map(rounded),
    },
    knees,
    landmarks: marks.map((m) => ({
      landmark: m.landmark,
      side: m.side,
      px: m.points.map((p) => ({ x: rounded(p.x), y: rounded(p.y) })),
      ...(m.mm ? { mm: m.mm.map(rounded) } : {}),
    })),
  };
}
