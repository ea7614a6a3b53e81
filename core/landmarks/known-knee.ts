import type { KneeEvidence } from './knee-evidence.ts';
import { type KnownPoints, knownMarks, knownScale, onCircle } from './known-marks.ts';
import type { Side } from './side.ts';

/**
 * An invented replaced knee in the limb's frame, mm, origin at the present joint line on the mechanical axis: femoral component
 * square to its axis, tray 3 degrees in varus under a 10 mm insert, joint line raised. For worked examples and tests.
 */
export const REPLACED_AP: KnownPoints = {
  'femoral-head': onCircle([0, 440], 24, [10, 55, 100, 145, 190, 235, 280, 325]),
  'femoral-notch': [0.5, 8],
  'femoral-component-medial-edge': [-35, 6],
  'femoral-component-lateral-edge': [35, 6],
  'medial-condyle-distal': [-22, 0],
  'lateral-condyle-distal': [22, 0],
  'medial-epicondyle': [-41, 24],
  'lateral-epicondyle': [41, 20.5],
  'adductor-tubercle': [-33, 40],
  'femoral-shaft-proximal-medial': [6, 220],
  'femoral-shaft-proximal-lateral': [34, 220],
  'femoral-shaft-distal-medial': [-5, 100],
  'femoral-shaft-distal-lateral': [23, 100],
  'femoral-bone-distal-medial': [-22, 9],
  'femoral-bone-distal-lateral': [22, 9],
  'femoral-bone-medial-edge': [-36, 9],
  'femoral-bone-lateral-edge': [36, 9],
  'tray-medial-edge': [-35, -11.83],
  'tray-lateral-edge': [35, -8.17],
  'tibial-cortex-medial': [-37, -16],
  'tibial-cortex-lateral': [37, -13],
  'tibial-bone-medial': [-22, -16],
  'tibial-bone-lateral': [22, -13],
  'fibular-tip': [34, -16],
  'tibial-shaft-proximal-medial': [-14, -110],
  'tibial-shaft-proximal-lateral': [14, -110],
  'tibial-shaft-distal-medial': [-13, -260],
  'tibial-shaft-distal-lateral': [13, -260],
  'talus-medial': [-16, -370],
  'talus-lateral': [16, -370],
};

/** The other knee, native: joint line (bone) 1 mm proximal of its own origin's cartilage level, epicondyles 82 mm apart. */
export const NATIVE_AP: KnownPoints = {
  'femoral-head': onCircle([0, 442], 24, [10, 55, 100, 145, 190, 235, 280, 325]),
  'femoral-notch': [0, 8],
  'medial-condyle-distal': [-24, 1],
  'lateral-condyle-distal': [24, 3],
  'medial-epicondyle': [-41, 26.5],
  'lateral-epicondyle': [41, 24],
  'adductor-tubercle': [-33, 44.5],
  'femoral-shaft-proximal-medial': [6, 220],
  'femoral-shaft-proximal-lateral': [34, 220],
  'femoral-shaft-distal-medial': [-5, 100],
  'femoral-shaft-distal-lateral': [23, 100],
  'tibial-spines': [0, 5],
  'medial-plateau': [-24, -3],
  'lateral-plateau': [24, -1],
  'tibial-cortex-medial': [-37, -10],
  'tibial-cortex-lateral': [37, -10],
  'fibular-tip': [34, -13],
  'tibial-shaft-proximal-medial': [-14, -110],
  'tibial-shaft-proximal-lateral': [14, -110],
  'tibial-shaft-distal-medial': [-13, -260],
  'tibial-shaft-distal-lateral': [13, -260],
  'talus-medial': [-16, -370],
  'talus-lateral': [16, -370],
};

/** The same replaced knee from the side: tray sloping 3 degrees back, component flexed 2 degrees. */
export const REPLACED_LATERAL: KnownPoints = {
  'patella-superior-pole': [52, 62],
  'patella-inferior-pole': [46, 20],
  'patella-articular-superior': [40, 56],
  'patella-articular-inferior': [38, 24],
  'tibial-tubercle': [36, -32],
  'plateau-anterior': [24, -9],
  'plateau-posterior': [-24, -11.516],
  'tibial-sagittal-proximal-anterior': [17, -60],
  'tibial-sagittal-proximal-posterior': [-17, -60],
  'tibial-sagittal-distal-anterior': [14, -160],
  'tibial-sagittal-distal-posterior': [-14, -160],
  'femoral-sagittal-proximal-anterior': [18, 180],
  'femoral-sagittal-proximal-posterior': [-14, 180],
  'femoral-sagittal-distal-anterior': [18, 90],
  'femoral-sagittal-distal-posterior': [-14, 90],
  'posterior-condyle': [-40, 22],
  'femoral-component-distal-anterior': [10, 8.302],
  'femoral-component-distal-posterior': [-10, 9],
  'femoral-bone-posterior': [-30, 24],
  'posterior-condyle-other': [-35, 23],
  'femoral-flange': [19.5, 34],
  'tibial-edge-anterior': [22.5, -15],
  'tibial-edge-posterior': [-25, -17.5],
};

/** The same knee from above the bent thigh, mm, origin at the groove: patella tilted 6 degrees and shifted 4 mm to lateral, 14 mm of bone left. */
export const REPLACED_SKYLINE: KnownPoints = {
  'skyline-condyle-medial': [-20, 7],
  'skyline-condyle-lateral': [20, 7],
  'skyline-groove': [0, 0],
  'patella-back-medial': [-10.919, 11.568],
  'patella-back-lateral': [18.919, 8.432],
  'patella-front': [5.463, 23.923],
};

/** The same knee under stress, AP: opened by 3 degrees on the stressed side about the contact of the other. */
const stressed = (opens: 'lateral' | 'medial'): KnownPoints => ({
  'medial-condyle-distal': [-22, opens === 'medial' ? 44 * Math.tan(Math.PI / 60) : 0],
  'lateral-condyle-distal': [22, opens === 'lateral' ? 44 * Math.tan(Math.PI / 60) : 0],
  'tray-medial-edge': [-35, -10],
  'tray-lateral-edge': [35, -10],
});

const MM = { x: 0.14, y: 0.14 };

const FILMS = ['long', 'ap', 'lat', 'sky', 'varus', 'valgus'] as const;

/** The invented case: a long-leg film with both legs; AP, lateral, skyline and both stress films of the replaced knee. */
export function knownCase(side: Side = 'right'): KneeEvidence {
  const other = side === 'right' ? 'left' : 'right';
  const ap = { columnsTowards: 'patient-left', mmPerPx: MM } as const;
  const short = Object.fromEntries(
    Object.entries(REPLACED_AP).filter(([id]) => id !== 'femoral-head' && !id.startsWith('talus-')),
  );
  return {
    side,
    state: 'replaced',
    films: [
      { id: 'long', view: 'long-leg', side: 'both', role: 'present', standing: true, columnsTowards: 'patient-left' },
      { id: 'ap', view: 'ap', side, role: 'present', standing: true, columnsTowards: 'patient-left' },
      { id: 'lat', view: 'lateral', side, role: 'present', columnsTowards: 'anterior' },
      { id: 'sky', view: 'skyline', side, role: 'present', columnsTowards: 'patient-left' },
      { id: 'varus', view: 'stress-varus', side, role: 'present', columnsTowards: 'patient-left' },
      { id: 'valgus', view: 'stress-valgus', side, role: 'present', columnsTowards: 'patient-left' },
    ],
    marks: [
      ...knownMarks(REPLACED_AP, { ...ap, film: 'long', side, originPx: [900, 3500] }),
      ...knownMarks(NATIVE_AP, { ...ap, film: 'long', side: other, originPx: [2100, 3500] }),
      ...knownMarks(short, { ...ap, film: 'ap', side, originPx: [900, 1400] }),
      ...knownMarks(REPLACED_LATERAL, {
        film: 'lat',
        side,
        columnsTowards: 'anterior',
        mmPerPx: MM,
        originPx: [900, 1400],
      }),
      ...knownMarks(REPLACED_SKYLINE, { ...ap, film: 'sky', side, originPx: [800, 700] }),
      ...knownMarks(stressed('lateral'), { ...ap, film: 'varus', side, originPx: [900, 1400] }),
      ...knownMarks(stressed('medial'), { ...ap, film: 'valgus', side, originPx: [900, 1400] }),
    ],
    calibrations: new Map(FILMS.map((id) => [id, knownScale(MM)])),
    implants: { insertMm: 10 },
  };
}
