import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { BoneFindings, CaseFile, CaseFilm, Examination } from '@gapline/core/plan/case.ts';
import type { Chance } from './chance.ts';
import type { TrueMark } from './landmarks.ts';
import type { Leg } from './leg.ts';
import type { Phantom, PlannedFilm } from './phantom.ts';
import type { Scene } from './scene.ts';
import { boneTruth } from './truth.ts';

// What a person would enter beside the films: marks, examination, what was put in, bone as seen.

/** A true mark as it would be stored: exact, or moved by the landmark's marking spread. */
export function asMark(mark: TrueMark, film: { id: string; mmPerPx: number }, jitter: Chance | null): Mark {
  const sd = landmark(mark.landmark).markingSdMm / film.mmPerPx;
  const placed = (v: number) => Math.round((jitter ? v + jitter.normal(0, sd, 4) : v) * 1e4) / 1e4;
  return {
    landmark: mark.landmark,
    side: mark.side,
    film: film.id,
    points: mark.points.map((p) => ({ x: placed(p.x), y: placed(p.y) })),
    how: jitter ? 'by-hand' : 'model-truth',
    ...(jitter ? { by: 'demo' } : {}),
  };
}

/** The scale a person would choose: the tray's known width where it is seen from in front, else the ball. */
export function chosenScale({ vary, side, ...legs }: Phantom, { scene, role }: PlannedFilm): Pick<CaseFilm, 'scale'> {
  if (vary.scale && vary.scale !== 'none') return {};
  const r = legs[side].inPlace?.replacement;
  const front = scene.view === 'long-leg' || scene.view === 'ap';
  if (r && front && role === 'present' && vary.known === 'tray')
    return { scale: { kind: 'known-implant', part: 'tray', side, widthMm: r.trayWidthMm } };
  return vary.ball === false ? {} : { scale: { kind: 'ball', diameterMm: 25 } };
}

const half = (v: number): number => Math.round(2 * v) / 2;

/** Openings under stress to the half millimetre, as the true laxities and the present surfaces give them. */
export function examinationOf(leg: Leg, scene: Scene): Examination {
  const bone = boneTruth(leg);
  const s = scene.legs.find((l) => l.leg === leg);
  const openings = bone
    ? {
        openingExtensionMm: {
          medial: half(bone.openingExtensionMm.medial),
          lateral: half(bone.openingExtensionMm.lateral),
        },
        openingFlexionMm: {
          medial: half(bone.openingFlexionMm.medial),
          lateral: half(bone.openingFlexionMm.lateral),
        },
        openingSdMm: 1,
      }
    : {};
  return {
    ...openings,
    recurvatumDeg: 0,
    flexionDeg: 95,
    mcl: 'intact',
    lcl: 'intact',
    extensorMechanism: 'intact',
    ...(s ? { filmFlexionDeg: Math.round(s.flexionDeg), filmRotationDeg: Math.round(s.rotationDeg) } : {}),
  };
}

export function implantsOf(leg: Leg): Pick<CaseFile, 'implants'> {
  const r = leg.inPlace?.replacement;
  if (!r) return {};
  return {
    implants: {
      femurDistalMm: r.femurDistalMm,
      femurPosteriorMm: r.femurPosteriorMm,
      femurWidthMm: r.femurWidthMm,
      trayWidthMm: r.trayWidthMm,
      trayThicknessMm: r.trayThicknessMm,
      insertMm: r.insertMm,
      from: 'operation note (invented)',
    },
  };
}

const tenth = (v: number): number => Math.round(10 * v) / 10;

/** Bone classes by how deep and how wide the loss is: shallow 1; one side 2A; both sides 2B. */
const graded = (worst: number, least: number): NonNullable<BoneFindings['femurClass']> =>
  worst <= 4 ? '1' : least > 5 ? '2B' : '2A';

export function boneFindings(leg: Leg): Pick<CaseFile, 'bone'> {
  const r = leg.inPlace?.replacement;
  if (!r) return {};
  return {
    bone: {
      femurClass: graded(r.femoralLossMm.medial, r.femoralLossMm.lateral),
      tibiaClass: graded(r.tibialLossMm.medial + r.subsidenceMm, r.tibialLossMm.lateral + r.subsidenceMm),
      femurQuality: 'good',
      tibiaQuality: 'good',
      removalLossMm: { femurDistal: 1, femurPosterior: 1, tibia: 1 },
      femurCanalMm: tenth(leg.limb.femurCanalMm),
      tibiaCanalMm: tenth(leg.limb.tibiaCanalMm),
    },
  };
}
