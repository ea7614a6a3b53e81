import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { ColumnDirection } from '@gapline/core/landmarks/view.ts';
import type { CaseFile, CaseFilm, ChosenScale } from '@gapline/core/plan/case.ts';
import { chance } from '@gapline/phantoms/src/chance.ts';
import { type TrueMark, trueMarks } from '@gapline/phantoms/src/landmarks.ts';
import { buildPhantom, type Phantom, type PlannedFilm, plannedFilms } from '@gapline/phantoms/src/phantom.ts';
import { boneFindings, examinationOf, implantsOf } from '@gapline/phantoms/src/told-case.ts';
import { filmTruth, legTruth } from '@gapline/phantoms/src/truth.ts';
import type { Vary } from '@gapline/phantoms/src/vary.ts';

/** Spreads of the scales used here (docs/rules/scale.md): implant in place, spacing stated by hand, what a long-leg film adds. */
const IMPLANT_SD = 0.007;
const STATED_SD = 0.05;
const LONG_LEG_SD = 0.02;
/** Spread of the insert's labelled thickness as found (core/landmarks/reading.ts). */
const INSERT_SD_MM = 0.5;

const TOWARDS: Readonly<Record<string, ColumnDirection>> = {
  L: 'patient-left',
  R: 'patient-right',
  A: 'anterior',
  P: 'posterior',
};

/** A virtual limb with its films placed but not taken. */
export interface PlacedLimb {
  readonly phantom: Phantom;
  readonly films: readonly {
    readonly planned: PlannedFilm;
    readonly mmPerPx: number;
    readonly marks: readonly TrueMark[];
  }[];
  /** The operated leg as it truly is. */
  readonly truth: ReturnType<typeof legTruth>;
}

export function placedLimb(seed: number, vary: Vary): PlacedLimb {
  const phantom = buildPhantom({ seed, vary });
  const planned = plannedFilms(phantom);
  const standing = planned[0]?.scene.legs.find((s) => s.side === phantom.side);
  const films = planned
    .filter((p) => p.scene.view !== 'skyline')
    .map((one) => {
      const marks = trueMarks(one.scene);
      const { knees } = filmTruth(one.scene, marks);
      const knee = knees.find((k) => k.side === phantom.side) ?? knees[0];
      return { planned: one, marks, mmPerPx: knee?.mmPerPxAtKnee ?? 0 };
    });
  return { phantom, films, truth: legTruth(phantom[phantom.side], standing?.jlcaDeg ?? 0) };
}

/**
 * The limb as a case: exact marks with the exact scale, or with `draw` given everything that has a stated spread (each mark, the tray whose
 * width gives the scale, the insert) moved once by that spread.
 */
export function caseOfLimb({ phantom, films }: PlacedLimb, draw?: number): CaseFile {
  const { seed, side } = phantom;
  const luck = draw === undefined ? null : chance(seed * 1000 + draw, 'marking');
  const tray = phantom[side].inPlace?.replacement.trayWidthMm;
  const scaleOf = ({ scene }: PlannedFilm, mmPerPx: number): ChosenScale => {
    if (!luck || scene.view === 'lateral' || tray === undefined) {
      const stated = mmPerPx * (luck ? 1 + luck.normal(0, STATED_SD) : 1);
      return { kind: 'stated-spacing', mmPerPx: stated, from: 'the model' };
    }
    const sd = scene.view === 'long-leg' ? Math.hypot(IMPLANT_SD, LONG_LEG_SD) : IMPLANT_SD;
    return { kind: 'known-implant', part: 'tray', side, widthMm: tray * (1 + luck.normal(0, sd)) };
  };
  const shown = films.map(({ planned, mmPerPx }) => filmOf(planned, scaleOf(planned, mmPerPx)));
  const marks = films.flatMap(({ planned, mmPerPx, marks: found }) =>
    found
      .filter((m) => m.landmark !== 'calibration-ball')
      .map((m): Mark => {
        const sd = luck ? landmark(m.landmark).markingSdMm / mmPerPx : 0;
        const place = (v: number) => (luck ? v + luck.normal(0, sd) : v);
        const points = m.points.map((p) => ({ x: place(p.x), y: place(p.y) }));
        return { landmark: m.landmark, side: m.side, film: planned.id, points, how: 'model-truth' };
      }),
  );
  const leg = phantom[side];
  const { implants } = implantsOf(leg);
  const insertMm = (implants?.insertMm ?? 0) + (luck ? luck.normal(0, INSERT_SD_MM) : 0);
  const first = films[0]?.planned.scene;
  return {
    format: 'gapline-case',
    version: '1.0',
    id: `phantom-${seed}`,
    title: `Phantom ${seed}`,
    side,
    patient: {},
    films: shown,
    marks,
    ...(implants ? { implants: { ...implants, insertMm } } : {}),
    ...(first ? { examination: examinationOf(leg, first) } : {}),
    ...boneFindings(leg),
    catalogue: 'example',
    invented: true,
  };
}

function filmOf({ id, role, scene }: PlannedFilm, scale: ChosenScale): CaseFilm {
  const { rows, columns } = scene.beam;
  const towards = TOWARDS[scene.orientation[0]];
  return {
    id,
    file: `${id}.dcm`,
    view: scene.view,
    side: scene.side,
    role,
    standing: true,
    ...(towards ? { columnsTowards: towards } : {}),
    scaleFacts: { volumetric: false, rows, columns, derived: false },
    scale,
  };
}
