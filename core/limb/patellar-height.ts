import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { millimetres } from '../landmarks/millimetres.ts';
import type { Reading } from '../landmarks/reading.ts';
import { bearingLine, PLATEAU } from '../landmarks/sagittal-lines.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { type Line, signedDistance } from '../plane/line.ts';
import { distance, type Point } from '../plane/point.ts';
import { type Definition, LATERAL } from './definition.ts';

type P = Point<'sagittal'>;
type R = Reading<'sagittal'>;

function ratio(length: number, whole: number): Outcome<number> {
  return whole > 1e-9
    ? ok(length / whole)
    : cannot({
        code: 'line-has-no-length',
        message: 'Two ends of the patella are marked in the same place.',
        mend: 'Place the two marks apart.',
      });
}

/** Insall-Salvati ratio: tendon length (inferior pole to tubercle) over patellar length (pole to pole). No unit; small = low patella with a short tendon. Source: Insall & Salvati 1971. */
export const insallSalvati = (superiorPole: P, inferiorPole: P, tubercle: P): Outcome<number> =>
  ratio(distance(inferiorPole, tubercle), distance(superiorPole, inferiorPole));

/** Modified Insall-Salvati ratio: lower end of the articular surface to tubercle, over the articular length. Source: Grelsamer & Meadows 1992. */
export const modifiedInsallSalvati = (articularTop: P, articularBottom: P, tubercle: P): Outcome<number> =>
  ratio(distance(articularBottom, tubercle), distance(articularTop, articularBottom));

/** Blackburne-Peel ratio: height of the lower end of the articular surface over the bearing line (from back to front), over the articular length. Source: Blackburne & Peel 1977. */
export const blackburnePeel = (articularTop: P, articularBottom: P, bearing: Line<'sagittal'>): Outcome<number> =>
  ratio(signedDistance(articularBottom, bearing), distance(articularTop, articularBottom));

/** Caton-Deschamps ratio: lower end of the articular surface to the front corner of plateau, insert or tray, over the articular length. Source: Caton 1982. */
export const catonDeschamps = (articularTop: P, articularBottom: P, frontCorner: P): Outcome<number> =>
  ratio(distance(articularBottom, frontCorner), distance(articularTop, articularBottom));

const POLES = ['patella-superior-pole', 'patella-inferior-pole'] as const;
const FACE = ['patella-articular-superior', 'patella-articular-inferior'] as const;
const TUBERCLE: LandmarkId = 'tibial-tubercle';

const index = {
  frame: 'sagittal' as const,
  unit: '1' as const,
  sign: 'small = low patella (baja), large = high (alta)',
};

export const INSALL_SALVATI: Definition<'sagittal'> = {
  ...index,
  id: 'insall-salvati',
  label: 'Insall-Salvati ratio',
  rule: 'PAT-1',
  source: 'Insall & Salvati 1971',
  normal: '0.8 to 1.2; blind to a shifted joint line',
  readingSd: 0.09,
  variants: () => [
    {
      views: LATERAL,
      inputs: [...POLES, TUBERCLE],
      formula: (r) => insallSalvati(r.at(POLES[0]), r.at(POLES[1]), r.at(TUBERCLE)),
    },
  ],
};

export const MODIFIED_INSALL_SALVATI: Definition<'sagittal'> = {
  ...index,
  id: 'modified-insall-salvati',
  label: 'Modified Insall-Salvati ratio',
  rule: 'PAT-2',
  source: 'Grelsamer & Meadows 1992',
  normal: 'about 1.25; below 1.2 low, above 2.0 high',
  readingSd: 0.09,
  variants: () => [
    {
      views: LATERAL,
      inputs: [...FACE, TUBERCLE],
      formula: (r) => modifiedInsallSalvati(r.at(FACE[0]), r.at(FACE[1]), r.at(TUBERCLE)),
    },
  ],
};

/** Native: the plateau's own line. Replaced: the insert's surface, which does not show. */
const overBearing = (
  state: 'native' | 'replaced',
  inputs: readonly LandmarkId[],
  of: (line: Line<'sagittal'>, r: R) => Outcome<number>,
) => [
  {
    name: state === 'native' ? 'plateau line' : 'bearing line: tray + insert thickness',
    views: LATERAL,
    inputs: [...inputs, ...PLATEAU],
    needsInsert: state === 'replaced',
    formula: (r: R) => {
      const line = bearingLine(state === 'native' ? 'plateau' : 'tray', r);
      return line.ok ? of(line.value, r) : line;
    },
  },
];

export const BLACKBURNE_PEEL: Definition<'sagittal'> = {
  ...index,
  id: 'blackburne-peel',
  label: 'Blackburne-Peel ratio',
  rule: 'PAT-3',
  source: 'Blackburne & Peel 1977',
  normal: '0.54 to 1.06, mean 0.80',
  readingSd: 0.09,
  variants: (state) => overBearing(state, FACE, (line, r) => blackburnePeel(r.at(FACE[0]), r.at(FACE[1]), line)),
};

export const CATON_DESCHAMPS: Definition<'sagittal'> = {
  ...index,
  id: 'caton-deschamps',
  label: 'Caton-Deschamps ratio',
  rule: 'PAT-4',
  source: 'Caton 1982',
  normal: '0.6 to 1.2',
  readingSd: 0.09,
  variants: (state) =>
    overBearing(state, FACE, (line, r) => catonDeschamps(r.at(FACE[0]), r.at(FACE[1]), line.through)).map((v) => ({
      ...v,
      name: state === 'native' ? 'front corner of the plateau' : 'front corner of the insert: tray + thickness',
    })),
};

export const PATELLAR_HEIGHT: Definition<'sagittal'> = {
  frame: 'sagittal',
  unit: 'mm',
  sign: '+ = inferior pole above the bearing line, 0 = level with it',
  id: 'patellar-height',
  label: 'Patellar height over the bearing line',
  rule: 'PAT-5',
  source: 'Figgie 1986',
  normal: '10 to 30, Figgie 1986',
  needsScale: true,
  variants: (state) =>
    overBearing(state, [POLES[1]], (line, r) => millimetres(signedDistance(r.at(POLES[1]), line), r)),
};
