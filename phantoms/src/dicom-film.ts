import type { FilmScaleFacts } from '@gapline/core/calibration/film-scale-facts.ts';
import type { PlainFilm } from '@gapline/film/write/dx.ts';
import { uidOf } from '@gapline/film/write/uid.ts';
import { magnificationAt } from './beam.ts';
import { chance } from './chance.ts';
import { takeFilm } from './film.ts';
import type { Phantom, PlannedFilm } from './phantom.ts';
import type { Scene } from './scene.ts';
import { moved } from './space.ts';
import type { Vary } from './vary.ts';

interface ViewWords {
  readonly position: string;
  readonly code: string;
  readonly meaning: string;
  readonly title: string;
  readonly bodyPart: string;
  readonly region: { readonly code: string; readonly meaning: string };
}

const KNEE = { code: '72696002', meaning: 'Knee' };
const AP = { position: 'AP', code: '399348003', meaning: 'antero-posterior' };

/** SNOMED CT codes of view and region; the view position of a side film is RL or LL (PS3.3 C.8.1.1). */
function viewWords(scene: Scene): ViewWords {
  switch (scene.view) {
    case 'long-leg': {
      const region = { code: '61685007', meaning: 'Lower leg' };
      return { ...AP, title: 'Both legs, standing, AP', bodyPart: 'LEG', region };
    }
    case 'lateral':
      return {
        position: scene.side === 'right' ? 'RL' : 'LL',
        code: '399260004',
        meaning: 'medio-lateral',
        title: 'Knee lateral, 30 degrees',
        bodyPart: 'KNEE',
        region: KNEE,
      };
    case 'skyline':
      return {
        position: '',
        code: '399110001',
        meaning: 'tangential',
        title: 'Patella, skyline',
        bodyPart: 'PATELLA',
        region: { code: '64234005', meaning: 'Patella' },
      };
    default:
      return { ...AP, title: 'Knee AP', bodyPart: 'KNEE', region: KNEE };
  }
}

const NAMES = {
  female: ['Ada', 'Berta', 'Clara', 'Dora', 'Edda', 'Frieda', 'Greta', 'Hanna'],
  male: ['Anton', 'Bruno', 'Conrad', 'David', 'Emil', 'Felix', 'Georg', 'Hugo'],
} as const;

/** An invented patient. */
export function patientOf({ seed, person }: Phantom) {
  const c = chance(seed, 'name');
  const given = NAMES[person.sex][Math.floor(8 * c.uniform())] ?? NAMES[person.sex][0];
  const year = 1940 + Math.floor(25 * c.uniform());
  const [month, day] = [1 + Math.floor(12 * c.uniform()), 1 + Math.floor(28 * c.uniform())];
  const birthDate = `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
  return { name: `Phantom^${given}`, id: `PHANTOM-${seed}`, birthDate };
}

/** Detector housing to the support nearest the patient, mm. */
const SUPPORT_MM = 40;

function spacingOf(scene: Scene, vary: Vary): PlainFilm['spacing'] {
  const { spacingMm } = scene.beam;
  const sid = scene.sourceToDetectorMm;
  const knee = scene.legs.find((s) => s.leg.inPlace) ?? scene.legs[0]!;
  const m = magnificationAt(scene.beam, moved(knee.pose.femur, [0, 0, 0]));
  const base = { detectorMm: spacingMm, sourceToDetectorMm: sid, sourceToPatientMm: sid - SUPPORT_MM };
  if (vary.scale === 'ermf') return { ...base, magnificationFactor: Math.round(m * 1e4) / 1e4 };
  if (vary.scale !== 'geometry' && vary.scale !== 'fiducial') return base;
  const mm = Math.round((spacingMm / m) * 1e6) / 1e6;
  const geometry = vary.scale === 'geometry';
  const description = geometry ? 'Distance of the knee from the detector' : 'Ball of 25 mm at the knee';
  return { ...base, calibrated: { mm: [mm, mm], type: geometry ? 'GEOMETRY' : 'FIDUCIAL', description } };
}

/** The choices in a fixed order, so that the same choices give the same identifiers however they were listed. */
const nameOf = ({ seed, vary }: Phantom): string =>
  `phantom/${seed}/${JSON.stringify(Object.entries(vary).sort(([a], [b]) => (a < b ? -1 : 1)))}`;

/** Takes one film and puts everything that a DICOM file says beside its pixels. */
export function plainFilm(phantom: Phantom, planned: PlannedFilm, number: number): PlainFilm {
  const { seed, vary, person } = phantom;
  const { scene, takenOn } = planned;
  const bitsStored = vary.bits ?? 12;
  const monochrome1 = vary.monochrome1 ?? false;
  const picture = takeFilm(scene, {
    seed: seed * 31 + number,
    bits: bitsStored,
    monochrome1,
    noise: vary.noise ?? true,
  });
  const view = viewWords(scene);
  const name = nameOf(phantom);
  const patient = patientOf(phantom);
  const long = scene.view === 'long-leg';
  return {
    ...picture,
    kind: vary.cr ? 'cr' : 'dx',
    bitsStored,
    monochrome1,
    patient: {
      name: patient.name,
      id: patient.id,
      sex: person.sex === 'female' ? 'F' : 'M',
      birthDate: patient.birthDate.replaceAll('-', ''),
    },
    study: {
      uid: uidOf(`${name}/study/${takenOn}`),
      date: takenOn.replaceAll('-', ''),
      time: '090000',
      id: `P${seed}`,
      description: 'Knee (phantom)',
    },
    series: { uid: uidOf(`${name}/series/${planned.id}`), number, description: view.title },
    instance: { uid: uidOf(`${name}/image/${planned.id}`), number: 1 },
    laterality: scene.side === 'both' ? 'B' : scene.side === 'right' ? 'R' : 'L',
    view,
    region: view.region,
    bodyPart: view.bodyPart,
    orientation: scene.orientation,
    derived: long ? { stitched: true, description: 'Joined from overlapping exposures' } : null,
    spacing: spacingOf(scene, vary),
    exposure: { kvp: long ? 80 : 66, mas: long ? 40 : 6 },
    comment: 'Computed phantom; shows no person',
  };
}

/** What the written file says of scale, as a reader of it would list it. */
export function scaleFacts(film: PlainFilm): FilmScaleFacts {
  const { spacing } = film;
  const { calibrated, magnificationFactor } = spacing;
  return {
    volumetric: false,
    rows: film.rows,
    columns: film.columns,
    imagerPixelSpacing: [spacing.detectorMm, spacing.detectorMm],
    sourceToDetectorMm: spacing.sourceToDetectorMm,
    sourceToPatientMm: spacing.sourceToPatientMm,
    derived: film.derived !== null,
    stitched: film.derived?.stitched ?? false,
    ...(calibrated
      ? {
          pixelSpacing: calibrated.mm,
          calibrationType: calibrated.type,
          calibrationDescription: calibrated.description,
        }
      : {}),
    ...(magnificationFactor && film.kind === 'dx' ? { magnificationFactor } : {}),
  };
}
