import type { Catalogue } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import { checkWeights } from '../gaps/check-weights.ts';
import { type PinnedQuestion, solvePinned } from '../gaps/pinned/solve-pinned.ts';
import type { WeightTable } from '../gaps/weights.ts';
import type { Reason } from '../measure/outcome.ts';
import type { CaseFile } from './case.ts';
import { type FindingsBook, goWithout, need } from './findings-book.ts';
import type { Plan } from './plan.ts';

export interface SolvingFor {
  readonly file: CaseFile;
  readonly book: FindingsBook;
  readonly bone: Plan['bone'];
  readonly catalogue: Catalogue | null;
  readonly weights: WeightTable;
}

/** The construct of least cost, or what it cannot be sought without. */
export function solveFor({ file, book, bone, catalogue, weights }: SolvingFor): Plan['construct'] {
  if (!catalogue) need(book, NO_CATALOGUE);
  else if (file.catalogue !== undefined && file.catalogue !== catalogue.id) {
    const what = `Catalogue “${file.catalogue}”: “${catalogue.id}” was given instead`;
    need(book, { what, field: 'catalogue', wouldChange: 'Which components there are.' });
  }
  const sound = checkWeights(weights);
  if (!sound.ok) need(book, ofWeights(sound.reason));
  else for (const warning of sound.warnings) goWithout(book, ofWeights(warning));
  if (!catalogue || !bone.ok || book.needed.length > 0) return { kind: 'not-attempted', because: [...book.needed] };
  return solvePinned(questionFor(file, { state: bone.value.state, catalogue, weights }));
}

/**
 * What the solver is asked for a case whose bone is known: with the slope that is aimed at and with what was fixed by hand; a slope
 * fixed by hand goes before the one that is aimed at.
 */
export function questionFor(
  { settings }: Pick<CaseFile, 'settings'>,
  {
    state,
    catalogue,
    weights,
  }: { readonly state: BoneState; readonly catalogue: Catalogue; readonly weights: WeightTable },
): PinnedQuestion {
  const { pinned = {}, targetSlopeDeg } = settings ?? {};
  const free = { state, catalogue: withSlope(catalogue, targetSlopeDeg), weights };
  return pinned.slopeDeg === undefined ? { ...free, pinned } : { ...free, catalogue, pinned, free };
}

const ofWeights = ({ message, field }: Reason) => ({
  what: message,
  field: `settings.${field ?? 'weights'}`,
  wouldChange: 'Which construct costs least.',
});

const NO_CATALOGUE = {
  what: 'Catalogue of components',
  field: 'catalogue',
  wouldChange: 'Which components there are.',
};

/** One narrowed catalogue for each slope, so that a drag on the film does not sort the catalogue anew. */
const narrowed = new WeakMap<Catalogue, Map<number, Catalogue>>();

/**
 * The catalogue with the slope nearest to the asked one as its only slope (ties: the smaller); the catalogue itself where no
 * slope is asked for, then the solver chooses among all that the system allows.
 */
export function withSlope(catalogue: Catalogue, askedDeg: number | undefined): Catalogue {
  if (askedDeg === undefined) return catalogue;
  const [nearest] = [...catalogue.limits.slopeDeg].sort(
    (a, b) => Math.abs(a - askedDeg) - Math.abs(b - askedDeg) || a - b,
  );
  if (nearest === undefined) return catalogue;
  const known = narrowed.get(catalogue) ?? new Map<number, Catalogue>();
  narrowed.set(catalogue, known);
  const made = known.get(nearest) ?? { ...catalogue, limits: { ...catalogue.limits, slopeDeg: [nearest] } };
  known.set(nearest, made);
  return made;
}
