import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { otherSide, type Side } from '@gapline/core/landmarks/side.ts';
import type { ColumnDirection } from '@gapline/core/landmarks/view.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import { writePlainFilm } from '@gapline/film/write/dx.ts';
import { tracedCanals } from './canal-walls.ts';
import { type Chance, chance } from './chance.ts';
import { patientOf, plainFilm, scaleFacts } from './dicom-film.ts';
import { trueMarks } from './landmarks.ts';
import { buildPhantom, type Phantom, type PhantomRequest, type PlannedFilm, plannedFilms } from './phantom.ts';
import { asMark, boneFindings, chosenScale, examinationOf, implantsOf } from './told-case.ts';
import { filmTruth, legTruth } from './truth.ts';

/** What stands in the folder afterwards. */
export interface WrittenPhantom {
  readonly caseFile: CaseFile;
  readonly files: readonly string[];
}

/** How the case is told, where the seed does not say. */
export interface CaseStory extends Pick<CaseFile, 'settings' | 'workUp' | 'kit' | 'forecast'> {
  /** Bone as seen, beside what the phantom itself tells. */
  readonly bone?: CaseFile['bone'];
  readonly id: string;
  readonly title: string;
  readonly note: string;
}

const TOWARDS: Readonly<Record<string, ColumnDirection>> = {
  L: 'patient-left',
  R: 'patient-right',
  A: 'anterior',
  P: 'posterior',
};

const text = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

interface FilmTo {
  readonly dir: string;
  readonly number: number;
  /** Draws of the hand that marks; streams of their own, so that traces leave the marks as they were. */
  readonly jitter: { readonly marks: Chance; readonly canals: Chance } | null;
}

/** The canals of the operated leg as traced on one film, where they are asked for. */
function canalsOn(
  phantom: Phantom,
  { scene, id, role }: PlannedFilm,
  told: { mmPerPx: number; jitter: Chance | null },
) {
  const s = scene.legs.find((l) => l.leg === phantom[phantom.side]);
  const traced = phantom.vary.canals && role === 'present' && scene.view !== 'skyline';
  return traced && s ? tracedCanals(scene, s, { film: id, ...told }) : [];
}

/** Takes, writes and describes one film. */
function writeFilm(phantom: Phantom, planned: PlannedFilm, to: FilmTo) {
  const { scene, id, role, takenOn } = planned;
  const film = plainFilm(phantom, planned, to.number);
  const bytes = writePlainFilm(film);
  const file = `${id}.dcm`;
  writeFileSync(join(to.dir, file), bytes);
  const found = trueMarks(scene);
  const truth = filmTruth(scene, found);
  const knee = truth.knees.find((k) => k.side === phantom.side) ?? truth.knees[0]!;
  const mmPerPx = knee.mmPerPxAtKnee;
  const marks = found.map((m) => asMark(m, { id, mmPerPx }, to.jitter?.marks ?? null));
  const canals = canalsOn(phantom, planned, { mmPerPx, jitter: to.jitter?.canals ?? null });
  const described: CaseFilm = {
    id,
    file,
    sha256: createHash('sha256').update(bytes).digest('hex'),
    view: scene.view,
    side: scene.side,
    takenOn,
    role,
    ...(scene.view === 'long-leg' || scene.view === 'ap' ? { standing: true } : {}),
    columnsTowards: TOWARDS[scene.orientation[0]]!,
    scaleFacts: scaleFacts(film),
    ...chosenScale(phantom, planned),
  };
  return { described, marks, canals, truth };
}

const withBone = (told: Pick<CaseFile, 'bone'>, seen: CaseFile['bone']): Pick<CaseFile, 'bone'> =>
  told.bone || seen ? { bone: { ...told.bone, ...seen } } : {};

function caseOf(
  phantom: Phantom,
  parts: { films: CaseFilm[]; marks: Mark[]; canals: NonNullable<CaseFile['canals']>; planned: PlannedFilm[] },
  story?: Partial<CaseStory>,
): CaseFile {
  const { seed, side, person } = phantom;
  const leg = phantom[side];
  const patient = patientOf(phantom);
  return {
    format: 'gapline-case',
    version: '1.0',
    id: story?.id ?? `phantom-${seed}`,
    title: story?.title ?? `Phantom ${seed}, ${side} knee`,
    side,
    patient: { id: patient.id, name: patient.name.replace('^', ', '), sex: person.sex, birthDate: patient.birthDate },
    films: parts.films,
    marks: parts.marks,
    ...implantsOf(leg),
    examination: examinationOf(leg, parts.planned[0]!.scene),
    ...withBone(boneFindings(leg), story?.bone),
    ...(parts.canals.length > 0 ? { canals: parts.canals } : {}),
    ...(story?.kit ? { kit: story.kit } : {}),
    ...(story?.forecast ? { forecast: story.forecast } : {}),
    ...(story?.settings ? { settings: story.settings } : {}),
    ...(story?.workUp ? { workUp: story.workUp } : {}),
    catalogue: 'example',
    invented: true,
    note: story?.note ?? 'A computed phantom. No person stands behind it.',
  };
}

/**
 * Writes a virtual limb into a folder: its films as DICOM, `case.json` and `truth.json`. The same seed and choices
 * give the same bytes. Creates the folder; overwrites files of the same names.
 */
export function writePhantom(request: PhantomRequest, dir: string, story?: Partial<CaseStory>): WrittenPhantom {
  const phantom = buildPhantom(request);
  const { seed, side, vary, person } = phantom;
  mkdirSync(dir, { recursive: true });
  const jitter = vary.marks === 'jittered' ? { marks: chance(seed, 'marks'), canals: chance(seed, 'canals') } : null;
  const planned = plannedFilms(phantom);
  const films = planned.map((p, i) => writeFilm(phantom, p, { dir, number: i + 1, jitter }));
  const caseFile = caseOf(
    phantom,
    {
      films: films.map((f) => f.described),
      marks: films.flatMap((f) => f.marks),
      canals: films.flatMap((f) => f.canals),
      planned,
    },
    story,
  );
  const standing = (of: Side) => planned[0]!.scene.legs.find((s) => s.side === of)!;
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
    legs: Object.fromEntries([side, otherSide(side)].map((of) => [of, legTruth(phantom[of], standing(of).jlcaDeg)])),
    films: Object.fromEntries(films.map((f, i) => [planned[i]!.id, f.truth])),
  };
  writeFileSync(join(dir, 'case.json'), text(caseFile));
  writeFileSync(join(dir, 'truth.json'), text(truth));
  return { caseFile, files: [...films.map((f) => f.described.file), 'case.json', 'truth.json'] };
}
