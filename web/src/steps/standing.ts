import { isLandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Warning } from '@gapline/core/measure/outcome.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Missing, Plan } from '@gapline/core/plan/plan.ts';
import { isAskedFor, isMarked, landmarksOf, sidesOn } from '../case/marking.ts';
import type { StandingIs } from '../parts/StandingShape.tsx';
import { LEVEL_WORDS, withUnit } from '../parts/words.ts';

/** The steps of a case, in the order in which the surgeon thinks. */
export const STEPS = [
  { id: 'patient', title: 'Patient and side' },
  { id: 'films', title: 'Films and scale' },
  { id: 'marks', title: 'Marks' },
  { id: 'measurements', title: 'Measurements' },
  { id: 'joint-line', title: 'Joint line' },
  { id: 'bone', title: 'Bone and ligaments' },
  { id: 'construct', title: 'Construct' },
  { id: 'sheet', title: 'Plan sheet' },
] as const;

export type StepId = (typeof STEPS)[number]['id'];

export interface Standing {
  readonly is: StandingIs;
  /** Where the step stands, in one line. */
  readonly line: string;
  readonly conflicts: readonly Warning[];
  readonly missing: readonly Missing[];
}

/** Step that a field of the case belongs to. What names no known field belongs to the construct. */
export function stepOf(field: string | undefined): StepId {
  const path = (field ?? '').replace(/^\//, '');
  const root = path.split(/[/.[ ]/)[0] ?? '';
  if (['side', 'patient', 'title'].includes(root)) return 'patient';
  if (root.startsWith('film') || root === 'scale') return 'films';
  if (root.startsWith('mark') || isLandmarkId(path)) return 'marks';
  if (['bone', 'examination', 'implants'].includes(root)) return 'bone';
  if (root === 'settings' || root.startsWith('joint')) return 'joint-line';
  return 'construct';
}

/** Where every step stands. */
export function standings(file: CaseFile, plan: Plan): Readonly<Record<StepId, Standing>> {
  const conflicts = (id: StepId): readonly Warning[] => plan.conflicts.filter((c) => stepOf(c.field) === id);
  const missing = (id: StepId): readonly Missing[] => plan.missing.filter((m) => stepOf(m.field) === id);
  const make = (id: StepId, open: string | null, settled: string): Standing => {
    const own = conflicts(id);
    const [first] = own;
    const rest = { conflicts: own, missing: missing(id) };
    if (first) return { is: 'conflict', line: conflictLine(own, first), ...rest };
    return open === null ? { is: 'settled', line: settled, ...rest } : { is: 'open', line: open, ...rest };
  };
  return {
    patient: make('patient', null, `${file.side === 'right' ? 'Right' : 'Left'} knee`),
    films: make('films', openFilms(plan), `${counted(file.films.length, 'film')}, each with its scale`),
    marks: make('marks', openMarks(file), 'Everything that was asked for is marked'),
    measurements: make('measurements', openMeasurements(file, plan), 'Everything measured'),
    'joint-line': jointLineStanding(plan, conflicts('joint-line'), missing('joint-line')),
    bone: make('bone', plan.bone.ok ? null : plan.bone.reason.message, 'Bone and ligaments described'),
    construct: constructStanding(plan, conflicts('construct'), missing('construct')),
    sheet: make(
      'sheet',
      null,
      plan.missing.length > 0 ? `${counted(plan.missing.length, 'thing')} not known` : 'Ready to print',
    ),
  };
}

/** One contradiction is told as it is; more are listed below the line. */
const conflictLine = (all: readonly Warning[], first: Warning): string =>
  all.length === 1 ? first.message : `${counted(all.length, 'thing')} to mend`;

const counted = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`;

function openFilms(plan: Plan): string | null {
  if (plan.films.length === 0) return 'No film yet';
  const without = plan.films.filter((f) => f.calibration.source === 'none').length;
  return without > 0 ? `${counted(without, 'film')} without scale: angles and ratios only` : null;
}

function openMarks(file: CaseFile): string | null {
  let marked = 0;
  let asked = 0;
  for (const film of file.films) {
    const side = sidesOn(film, file.side)[0] ?? file.side;
    for (const l of landmarksOf(film)) {
      const name = { landmark: l.id, side, film: film.id };
      if (isMarked(file, name)) marked++;
      if (isMarked(file, name) || isAskedFor(file, name)) asked++;
    }
  }
  return marked < asked ? `${marked} marked of ${asked} that could be` : null;
}

function openMeasurements(file: CaseFile, plan: Plan): string | null {
  const own = plan.measurements.filter((m) => m.side === file.side);
  const measured = own.filter((m) => m.value !== null).length;
  return measured < own.length ? `${measured} measured, ${own.length - measured} waiting` : null;
}

type Rest = readonly [readonly Warning[], readonly Missing[]];

function jointLineStanding(plan: Plan, ...[conflicts, missing]: Rest): Standing {
  const { femoral, tibial } = plan.jointLine;
  const rest = { conflicts, missing };
  if (!femoral.ok && !tibial.ok) return { is: 'open', line: femoral.reason.message, ...rest };
  if ([femoral, tibial].some((e) => e.ok && e.value.agreement?.disagree)) {
    return { is: 'conflict', line: 'The landmarks disagree', ...rest };
  }
  const first = conflicts[0];
  if (first) return { is: 'conflict', line: conflictLine(conflicts, first), ...rest };
  const told = femoral.ok ? femoral : tibial;
  if (!told.ok) return { is: 'open', line: 'No estimate', ...rest };
  const shift = told.value.shiftMm;
  const words =
    Math.abs(shift) < 0.05
      ? 'stands where it belongs'
      : `stands ${withUnit(Math.abs(shift))} too ${shift > 0 ? 'high' : 'low'}`;
  return { is: 'settled', line: `It ${words}`, ...rest };
}

function constructStanding(plan: Plan, ...[conflicts, missing]: Rest): Standing {
  const rest = { conflicts, missing };
  const { construct } = plan;
  if (construct.kind === 'infeasible') return { is: 'conflict', line: 'Nothing in the catalogue fits', ...rest };
  const first = conflicts[0];
  if (first) return { is: 'conflict', line: conflictLine(conflicts, first), ...rest };
  if (construct.kind === 'not-attempted') {
    const what = construct.because
      .map((b) => b.what)
      .slice(0, 2)
      .join(', ');
    return { is: 'open', line: what ? `Waits for: ${what}` : 'Not attempted', ...rest };
  }
  return { is: 'settled', line: `${LEVEL_WORDS[construct.answer.best.construct.level]} fits best`, ...rest };
}
