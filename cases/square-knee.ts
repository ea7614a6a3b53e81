import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';

/**
 * A knee with square, straight geometry and round numbers, so that its plan can be worked out by hand. Millimetres from the middle of the present
 * joint line: x lateral or anterior, y proximal. Both films 0.2 mm per pixel, stated by hand.
 * Landmarks of the femur as in fixture J1 of the geometry reference: width 82, adductor tubercle 40, medial epicondyle 24, lateral 20.5.
 */
const MM_PER_PX = 0.2;

const ACROSS = Math.sqrt(82 ** 2 - 3.5 ** 2);

export const AP_MM: Partial<Record<LandmarkId, readonly [number, number]>> = {
  'femoral-component-medial-edge': [-34, 4],
  'femoral-component-lateral-edge': [34, 4],
  'medial-condyle-distal': [-22, 0],
  'lateral-condyle-distal': [22, 0],
  'medial-epicondyle': [-ACROSS / 2, 24],
  'lateral-epicondyle': [ACROSS / 2, 20.5],
  'adductor-tubercle': [-36, 40],
  'femoral-bone-distal-medial': [-20, 12],
  'femoral-bone-distal-lateral': [20, 13],
  'femoral-bone-medial-edge': [-36, 14],
  'femoral-bone-lateral-edge': [36, 14],
  'tray-medial-edge': [-36, -10],
  'tray-lateral-edge': [36, -10],
  'tibial-cortex-medial': [-37, -16],
  'tibial-cortex-lateral': [37, -16],
  'tibial-bone-medial': [-20, -16],
  'tibial-bone-lateral': [20, -15],
  'talus-medial': [-14, -375],
  'talus-lateral': [14, -375],
};

const LATERAL_MM: Partial<Record<LandmarkId, readonly [number, number]>> = {
  'femoral-sagittal-proximal-anterior': [30, 140],
  'femoral-sagittal-distal-anterior': [30, 70],
  'femoral-sagittal-proximal-posterior': [0, 140],
  'femoral-sagittal-distal-posterior': [0, 70],
  'posterior-condyle': [-24, 20],
  'femoral-bone-posterior': [-15, 20],
  'femoral-component-distal-anterior': [18, 9],
  'femoral-component-distal-posterior': [-6, 9],
  'plateau-anterior': [26, -10],
  'plateau-posterior': [-18, -10],
  'tibial-sagittal-proximal-anterior': [20, -60],
  'tibial-sagittal-proximal-posterior': [-10, -60],
  'tibial-sagittal-distal-anterior': [20, -150],
  'tibial-sagittal-distal-posterior': [-10, -150],
};

const HEAD = { at: [0, 440], radius: 24, points: 8 } as const;

const film = (id: string, view: CaseFilm['view'], rest: Partial<CaseFilm>): CaseFilm => ({
  id,
  file: `${id}.dcm`,
  sha256: id.charCodeAt(0).toString(16).padStart(64, '0'),
  view,
  side: 'right',
  takenOn: '2026-03-02',
  role: 'present',
  standing: view === 'long-leg',
  scaleFacts: { volumetric: false, rows: 4500, columns: 2000, derived: false },
  scale: { kind: 'stated-spacing', mmPerPx: MM_PER_PX, from: 'drawn to scale' },
  ...rest,
});

/** Columns of the AP film run towards the patient's left: medial, in a right knee. Those of the lateral film run forwards. */
export const onFilm = (filmId: 'long' | 'side', [x, y]: readonly [number, number]) => ({
  x: 1000 + ((filmId === 'long' ? -1 : 1) * x) / MM_PER_PX,
  y: (filmId === 'long' ? 2400 : 1500) - y / MM_PER_PX,
});

const marksOf = (filmId: 'long' | 'side', places: typeof AP_MM): Mark[] =>
  Object.entries(places).map(([landmark, at]) => ({
    landmark: landmark as LandmarkId,
    side: 'right',
    film: filmId,
    points: [onFilm(filmId, at)],
    how: 'model-truth',
  }));

const head: Mark = {
  landmark: 'femoral-head',
  side: 'right',
  film: 'long',
  points: Array.from({ length: HEAD.points }, (_, i) => {
    const turn = (2 * Math.PI * i) / HEAD.points;
    return onFilm('long', [HEAD.at[0] + HEAD.radius * Math.cos(turn), HEAD.at[1] + HEAD.radius * Math.sin(turn)]);
  }),
  how: 'model-truth',
};

export interface SquareKneeChanges {
  /** Marks of the AP film placed elsewhere, mm; null takes one away. */
  readonly ap?: Partial<Record<LandmarkId, readonly [number, number] | null>>;
  readonly lateral?: Partial<Record<LandmarkId, readonly [number, number] | null>>;
}

export function squareKnee(changes: SquareKneeChanges = {}): CaseFile {
  const places = (base: typeof AP_MM, change: SquareKneeChanges['ap'] = {}) =>
    Object.fromEntries(Object.entries({ ...base, ...change }).filter(([, at]) => at !== null)) as typeof AP_MM;
  return {
    format: 'gapline-case',
    version: '1.0',
    id: 'square-knee',
    title: 'Square knee, worked by hand',
    side: 'right',
    patient: { name: 'Invented^Ida', id: 'SQ-1' },
    films: [
      film('long', 'long-leg', { columnsTowards: 'patient-left' }),
      film('side', 'lateral', { columnsTowards: 'anterior' }),
    ],
    marks: [
      head,
      ...marksOf('long', places(AP_MM, changes.ap)),
      ...marksOf('side', places(LATERAL_MM, changes.lateral)),
    ],
    implants: { femurDistalMm: 9, femurPosteriorMm: 9, insertMm: 10, trayThicknessMm: 4, from: 'invented' },
    examination: {
      openingExtensionMm: { medial: 2, lateral: 3 },
      openingFlexionMm: { medial: 4, lateral: 5 },
      openingSdMm: 1,
      mcl: 'intact',
      lcl: 'intact',
      extensorMechanism: 'intact',
      recurvatumDeg: 0,
    },
    bone: {
      femurClass: '2A',
      tibiaClass: '2A',
      femurQuality: 'good',
      tibiaQuality: 'good',
      femurCanalMm: 15,
      tibiaCanalMm: 14,
    },
    settings: { targetAlignment: 'neutral' },
    catalogue: 'example',
    invented: true,
  };
}
