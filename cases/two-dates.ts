import type { DatedEvidence } from '@gapline/core/compare/dated-evidence.ts';
import { calibrateFilms } from '@gapline/core/plan/calibrate-films.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { evidenceFor } from '@gapline/core/plan/make-plan.ts';
import { chance } from '@gapline/phantoms/src/chance.ts';
import { trueMarks } from '@gapline/phantoms/src/landmarks.ts';
import { plannedFilms } from '@gapline/phantoms/src/phantom.ts';
import { filmTruth } from '@gapline/phantoms/src/truth.ts';
import type { Vary } from '@gapline/phantoms/src/vary.ts';
import { caseOfLimb, type PlacedLimb, placedLimb } from './phantom-case.ts';

/** How far a limb is turned and flexed each time a film of it is taken anew, deg, one standard deviation (assumption, CMP-4). */
export const SET_UP = { rotationDeg: 3, flexionDeg: 4 } as const;

/** A limb set up anew for its films: same person, same knee, other rotation and flexion. Skyline films are placed too. */
export function setUpAnew(seed: number, time: number, change: Vary = {}): PlacedLimb {
  const luck = chance(seed * 100 + time, 'set-up');
  const limb = placedLimb(seed, {
    ...change,
    rotation: luck.normal(0, SET_UP.rotationDeg, 3),
    flexion: Math.abs(luck.normal(0, SET_UP.flexionDeg, 3)),
    siderotation: luck.normal(0, SET_UP.rotationDeg, 3),
  });
  const skyline = plannedFilms(limb.phantom)
    .filter((p) => p.scene.view === 'skyline')
    .map((planned) => {
      const marks = trueMarks(planned.scene);
      return { planned, marks, mmPerPx: filmTruth(planned.scene, marks).knees[0]?.mmPerPxAtKnee ?? 0 };
    });
  return { ...limb, films: [...limb.films, ...skyline] };
}

/** The limb's case as the films of one date show it. */
export function dated(date: string, file: CaseFile): DatedEvidence {
  const calibrated = calibrateFilms(file);
  const objects = file.films.flatMap(({ id, scale }) =>
    scale?.kind === 'known-implant' ? [[id, `${scale.part} ${scale.side}`] as const] : [],
  );
  return { date, evidence: evidenceFor(file, calibrated), scaleObjects: new Map(objects) };
}

export const datedLimb = (date: string, limb: PlacedLimb, draw?: number): DatedEvidence =>
  dated(date, caseOfLimb(limb, draw));
