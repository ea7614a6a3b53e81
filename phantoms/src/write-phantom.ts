import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FilmScaleFacts } from '@gapline/core/calibration/film-scale-facts.ts';
import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { otherSide, type Side } from '@gapline/core/landmarks/side.ts';
import type { ColumnDirection } from '@gapline/core/landmarks/view.ts';
import type { CaseFile, CaseFilm, Examination } from '@gapline/core/plan/case.ts';
import { type PlainFilm, writePlainFilm } from '@gapline/film/write/dx.ts';
import { uidOf } from '@gapline/film/write/uid.ts';
import { type DrawnPerson, drawPerson } from './anthropometry.ts';
import { magnificationAt } from './beam.ts';
import { chance } from './chance.ts';
import { drawReplacement } from './faults.ts';
import { takeFilm } from './film.ts';
import { type TrueMark, trueMarks } from './landmarks.ts';
import { buildLeg, type Leg } from './leg.ts';
import { kneeFrontScene, kneeSideScene, longLegScene, type Scene, type SceneChoices, skylineScene } from './scene.ts';
import { moved } from './space.ts';
import { boneTruth, filmTruth, legTruth } from './truth.ts';
import type { Vary } from './vary.ts';

export interface PhantomRequest {
  /** Whole number. */
  readonly seed: number;
  readonly vary?: Vary;
}

/** What stands in the folder afterwards. */
export interface WrittenPhantom {
  readonly caseFile: CaseFile;
  readonly files: readonly string[];
}

/** A virtual person with one replaced knee, before any film is taken. */
export interface Phantom {
  readonly seed: number;
  readonly side: Side;
  readonly person: DrawnPerson;
  readonly right: Leg;
  readonly left: Leg;
  readonly vary: Vary;
}

/** Draws the person and builds both legs; nothing is written. */
export function buildPhantom({ seed, vary = {} }: PhantomRequest): Phantom {
  const side: Side = vary.side ?? (chance(seed, 'side').uniform() < 0.5 ? 'right' : 'left');
  const person = drawPerson(seed, vary.sex);
  const build = (of: Side): Leg => {
    const replaced = !vary.native && (of === side || vary.other === 'replaced');
    return buildLeg(person[of], replaced ? drawReplacement(person[of], seed + (of === side ? 0 : 7919), vary) : null);
  };
  return { seed, side, person, right: build('right'), left: build('left'), vary };
}

/** The four films of a phantom: long leg, knee from in front, from the side, skyline. */
export function scenesOf(phantom: Phantom): Scene[] {
  const { vary, seed, person, side } = phantom;
  const c = chance(seed, 'positioning');
  const drawn = { rotation: c.normal(0, 3, 2), flexion: Math.abs(c.normal(0, 4, 2)) };
  const choices: SceneChoices = {
    ideal: vary.ideal ?? false,
    rotationDeg: vary.rotation ?? drawn.rotation,
    flexionDeg: vary.flexion ?? drawn.flexion,
    mag: vary.mag,
    ball: vary.ball ?? true,
    ballDepthMm: vary.balldepth ?? 0,
    resolution: vary.resolution ?? 1,
    softIndex: person.softIndex,
  };
  const leg = phantom[side];
  return [
    longLegScene(phantom.right, phantom.left, choices),
    kneeFrontScene(leg, side, choices),
    kneeSideScene(leg, side, choices),
    skylineScene(leg, side, choices),
  ];
}

const VIEWS = {
  'long-leg': { position: 'AP', code: '399348003', meaning: 'antero-posterior', title: 'Both legs, standing, AP' },
  ap: { position: 'AP', code: '399348003', meaning: 'antero-posterior', title: 'Knee AP' },
  lateral: { position: 'LATERAL', code: '399260004', meaning: 'medio-lateral', title: 'Knee lateral, 30 degrees' },
  skyline: { position: '', code: '399110001', meaning: 'tangential', title: 'Patella, skyline' },
} as const;
type FilmView = keyof typeof VIEWS;

const towards: Readonly<Record<string, ColumnDirection>> = {
  L: 'patient-left',
  R: 'patient-right',
  A: 'anterior',
  P: 'posterior',
};

const NAMES = {
  female: ['Ada', 'Berta', 'Clara', 'Dora', 'Edda', 'Frieda', 'Greta', 'Hanna'],
  male: ['Anton', 'Bruno', 'Conrad', 'David', 'Emil', 'Felix', 'Georg', 'Hugo'],
} as const;

function patientOf({ seed, person }: Phantom) {
  const c = chance(seed, 'name');
  const given = NAMES[person.sex][Math.floor(8 * c.uniform())] ?? NAMES[person.sex][0];
  const year = 1940 + Math.floor(25 * c.uniform());
  const [month, day] = [1 + Math.floor(12 * c.uniform()), 1 + Math.floor(28 * c.uniform())];
  const birthDate = `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
  return { name: `Phantom^${given}`, id: `PHANTOM-${seed}`, birthDate };
}

const STUDY_DATE = '2025-03-10';

function spacingOf(scene: Scene, vary: Vary): PlainFilm['spacing'] {
  const { spacingMm } = scene.beam;
  const sid = scene.sourceToDetectorMm;
  const knee = scene.legs.find((s) => s.leg.inPlace) ?? scene.legs[0]!;
  const m = magnificationAt(scene.beam, moved(knee.pose.femur, [0, 0, 0]));
  // DX: source to the support nearest the patient, which touches the detector housing here (40 mm in front of it).
  const base = { detectorMm: spacingMm, sourceToDetectorMm: sid, sourceToPatientMm: sid - 40 };
  if (vary.scale === 'ermf') return { ...base, magnificationFactor: Math.round(m * 1e4) / 1e4 };
  if (vary.scale === 'geometry' || vary.scale === 'fiducial') {
    const mm = spacingMm / m;
    return {
      ...base,
      calibrated: {
        mm: [mm, mm],
        type: vary.scale === 'geometry' ? 'GEOMETRY' : 'FIDUCIAL',
        description: vary.scale === 'geometry' ? 'Distance of the knee from the detector' : 'Ball of 25 mm at the knee',
      },
    };
  }
  return base;
}

function plainFilm(phantom: Phantom, scene: Scene, number: number): PlainFilm {
  const { seed, vary, person } = phantom;
  const picture = takeFilm(scene, {
    seed: seed * 31 + number,
    bits: vary.bits ?? 12,
    monochrome1: vary.monochrome1 ?? false,
    noise: vary.noise ?? true,
  });
  const view = VIEWS[scene.view as FilmView];
  const name = `phantom/${seed}/${JSON.stringify(vary)}`;
  const patient = patientOf(phantom);
  const date = STUDY_DATE.replaceAll('-', '');
  return {
    ...picture,
    kind: vary.cr ? 'cr' : 'dx',
    bitsStored: vary.bits ?? 12,
    monochrome1: vary.monochrome1 ?? false,
    patient: {
      name: patient.name,
      id: patient.id,
      sex: person.sex === 'female' ? 'F' : 'M',
      birthDate: patient.birthDate.replaceAll('-', ''),
    },
    study: { uid: uidOf(name), date, time: '090000', id: `P${seed}`, description: 'Knee (phantom)' },
    series: { uid: uidOf(`${name}/series/${number}`), number, description: view.title },
    instance: { uid: uidOf(`${name}/image/${number}`), number: 1 },
    laterality: scene.side === 'both' ? 'B' : scene.side === 'right' ? 'R' : 'L',
    view: scene.view === 'lateral' ? { ...view, position: scene.side === 'right' ? 'RL' : 'LL' } : view,
    region:
      scene.view === 'long-leg'
        ? { code: '61685007', meaning: 'Lower leg' }
        : scene.view === 'skyline'
          ? { code: '64234005', meaning: 'Patella' }
          : { code: '72696002', meaning: 'Knee' },
    bodyPart: scene.view === 'long-leg' ? 'LEG' : scene.view === 'skyline' ? 'PATELLA' : 'KNEE',
    orientation: scene.orientation,
    derived: scene.view === 'long-leg' ? { stitched: true, description: 'Joined from overlapping exposures' } : null,
    spacing: spacingOf(scene, vary),
    exposure: { kvp: scene.view === 'long-leg' ? 80 : 66, mas: scene.view === 'long-leg' ? 40 : 6 },
    comment: 'Computed phantom; shows no person',
  };
}

function scaleFacts(film: PlainFilm): FilmScaleFacts {
  const { spacing } = film;
  const facts: FilmScaleFacts = {
    volumetric: false,
    rows: film.rows,
    columns: film.columns,
    imagerPixelSpacing: [spacing.detectorMm, spacing.detectorMm],
    sourceToDetectorMm: spacing.sourceToDetectorMm,
    sourceToPatientMm: spacing.sourceToPatientMm,
    derived: film.derived !== null,
    stitched: film.derived?.stitched ?? false,
  };
  const calibrated = spacing.calibrated
    ? {
        pixelSpacing: spacing.calibrated.mm,
        calibrationType: spacing.calibrated.type,
        calibrationDescription: spacing.calibrated.description,
      }
    : {};
  const factor =
    spacing.magnificationFactor && film.kind === 'dx' ? { magnificationFactor: spacing.magnificationFactor } : {};
  return { ...facts, ...calibrated, ...factor };
}

/** A true mark as it would be stored: exact, or moved by the landmark's marking spread. */
function asMark(mark: TrueMark, film: { id: string; mmPerPx: number }, jitter: ReturnType<typeof chance> | null): Mark {
  const sd = landmark(mark.landmark).markingSdMm / film.mmPerPx;
  const near = (v: number) => Math.round((jitter ? v + jitter.normal(0, sd, 2.5) : v) * 1e4) / 1e4;
  return {
    landmark: mark.landmark,
    side: mark.side,
    film: film.id,
    points: mark.points.map((p) => ({ x: near(p.x), y: near(p.y) })),
    how: jitter ? 'by-hand' : 'model-truth',
    ...(jitter ? { by: 'demo' } : {}),
  };
}

function examinationOf(leg: Leg, scene: Scene): Examination {
  const bone = boneTruth(leg);
  const s = scene.legs.find((l) => l.leg === leg);
  const half = (v: number) => Math.round(2 * v) / 2;
  return {
    ...(bone
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
      : {}),
    recurvatumDeg: 0,
    flexionDeg: 95,
    mcl: 'intact',
    lcl: 'intact',
    extensorMechanism: 'intact',
    ...(s ? { filmFlexionDeg: Math.round(s.flexionDeg), filmRotationDeg: Math.round(s.rotationDeg) } : {}),
  };
}

/** What a writer may set besides the seed: how the case is told. */
export interface CaseStory {
  readonly id: string;
  readonly title: string;
  readonly note: string;
}

function implantsOf(leg: Leg): Pick<CaseFile, 'implants'> {
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

function boneFindings(leg: Leg): Pick<CaseFile, 'bone'> {
  const r = leg.inPlace?.replacement;
  if (!r) return {};
  const graded = (worst: number, least: number) => (worst > 9 ? (least > 5 ? '2B' : '2A') : worst > 4 ? '2A' : '1');
  return {
    bone: {
      femurClass: graded(r.femoralLossMm.medial, r.femoralLossMm.lateral),
      tibiaClass: graded(r.tibialLossMm.medial + r.subsidenceMm, r.tibialLossMm.lateral),
      femurQuality: 'good',
      tibiaQuality: 'good',
      removalLossMm: { femurDistal: 1, femurPosterior: 1, tibia: 1 },
      femurCanalMm: Math.round(10 * leg.limb.femurCanalMm) / 10,
      tibiaCanalMm: Math.round(10 * leg.limb.tibiaCanalMm) / 10,
    },
  };
}

const text = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

/**
 * Writes a virtual limb into a folder: its films as DICOM, `case.json` and `truth.json`. The same seed and choices
 * give the same bytes. Creates the folder; overwrites files of the same names.
 */
export function writePhantom(request: PhantomRequest, dir: string, story?: Partial<CaseStory>): WrittenPhantom {
  const phantom = buildPhantom(request);
  const { seed, side, vary, person } = phantom;
  const scenes = scenesOf(phantom);
  mkdirSync(dir, { recursive: true });
  const jitter = vary.marks === 'jittered' ? chance(seed, 'marks') : null;
  const films: CaseFilm[] = [];
  const marks: Mark[] = [];
  const truths: Record<string, unknown> = {};
  for (const [i, scene] of scenes.entries()) {
    const film = plainFilm(phantom, scene, i + 1);
    const bytes = writePlainFilm(film);
    const file = `${scene.view}.dcm`;
    writeFileSync(join(dir, file), bytes);
    const found = trueMarks(scene);
    const truth = filmTruth(scene, found);
    const knee = truth.knees.find((k) => k.side === side) ?? truth.knees[0]!;
    for (const mark of found) marks.push(asMark(mark, { id: scene.view, mmPerPx: knee.mmPerPxAtKnee }, jitter));
    truths[scene.view] = truth;
    films.push({
      id: scene.view,
      file,
      sha256: createHash('sha256').update(bytes).digest('hex'),
      view: scene.view,
      side: scene.side,
      takenOn: STUDY_DATE,
      role: 'present',
      ...(scene.view === 'long-leg' || scene.view === 'ap' ? { standing: true } : {}),
      columnsTowards: towards[scene.orientation[0]]!,
      scaleFacts: scaleFacts(film),
      ...(vary.ball === false || (vary.scale && vary.scale !== 'none')
        ? {}
        : { scale: { kind: 'ball', diameterMm: 25 } as const }),
    });
  }
  const leg = phantom[side];
  const patient = patientOf(phantom);
  const caseFile: CaseFile = {
    format: 'gapline-case',
    version: '1.0',
    id: story?.id ?? `phantom-${seed}`,
    title: story?.title ?? `Phantom ${seed}, ${side} knee`,
    side,
    patient: { id: patient.id, name: patient.name.replace('^', ', '), sex: person.sex, birthDate: patient.birthDate },
    films,
    marks,
    ...implantsOf(leg),
    examination: examinationOf(leg, scenes[0]!),
    ...boneFindings(leg),
    catalogue: 'demo',
    invented: true,
    note: story?.note ?? 'A computed phantom. No person stands behind it.',
  };
  const truth = {
    format: 'gapline-truth',
    version: '1.0',
    seed,
    vary,
    side,
    person: {
      sex: person.sex,
      statureCm: Math.round(person.statureCm * 10) / 10,
      softIndex: Math.round(person.softIndex * 1000) / 1000,
    },
    legs: {
      [side]: legTruth(leg, scenes[0]!.legs.find((s) => s.side === side)!.jlcaDeg),
      [otherSide(side)]: legTruth(phantom[otherSide(side)], scenes[0]!.legs.find((s) => s.side !== side)!.jlcaDeg),
    },
    films: truths,
  };
  writeFileSync(join(dir, 'case.json'), text(caseFile));
  writeFileSync(join(dir, 'truth.json'), text(truth));
  return { caseFile, files: [...films.map((f) => f.file), 'case.json', 'truth.json'] };
}
