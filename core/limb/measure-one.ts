import type { LimbFrame } from '../landmarks/film-to-limb.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { NO_INSERT, NO_SCALE } from '../landmarks/millimetres.ts';
import { shakable } from '../landmarks/reading.ts';
import type { Outcome, Reason, Warning } from '../measure/outcome.ts';
import { type Perturbation, propagatedSd, propagatedShares } from '../measure/propagate.ts';
import type { Definition, Variant } from './definition.ts';
import type { Measurement } from './measurement.ts';
import { postureCautions } from './posture.ts';

export interface FilmsOfLimb {
  readonly coronal: readonly LimbFilm<'coronal'>[];
  readonly sagittal: readonly LimbFilm<'sagittal'>[];
  /** Skyline films; absent = none are looked at. */
  readonly axial?: readonly LimbFilm<'axial'>[];
  /** Films that show this limb but cannot be measured on, with the reason. */
  readonly unreadable: ReadonlyMap<string, Reason>;
}

export interface Where<F extends LimbFrame> {
  readonly evidence: KneeEvidence;
  readonly films: readonly LimbFilm<F>[];
  readonly unreadable: ReadonlyMap<string, Reason>;
  /** Keeps what each cause adds to the spread of every line, where lines are compared afterwards. */
  readonly keepsCauses?: boolean;
}

interface Candidate<F extends LimbFrame> {
  readonly variant: Variant<F>;
  readonly film: LimbFilm<F>;
  readonly missing: readonly LandmarkId[];
}

/** One line of the table: the best variant on the first film that shows all of it, or what stands in the way. */
export function measureOne<F extends LimbFrame>(d: Definition<F>, where: Where<F>): Measurement {
  const native = d.nativeOnly && where.evidence.state === 'replaced';
  const role = native ? 'before-first-replacement' : 'present';
  const films = where.films.filter((f) => f.film.role === role);
  const variants = d.variants(native ? 'native' : where.evidence.state);
  const best = choose(d, variants, films);
  if (native && (!best || best.missing.length > 0)) return refused(d, where.evidence, NATIVE_ONLY, []);
  if (!best) return nothing(d, where, variants);
  if (best.missing.length > 0) return absent(d, where.evidence, best);
  return measured(where.keepsCauses ? { ...d, keepsCauses: true } : d, where.evidence, best);
}

const NATIVE_ONLY: Reason = {
  code: 'native-only',
  message:
    'Holds for native bone only: component faces say nothing of the knee as it was before the first replacement.',
  mend: 'Add and mark a long-leg film from before the first replacement, or mark the other knee.',
};

/** Variants in their order of preference, films with a scale first where millimetres enter; else whatever lacks least. */
function choose<F extends LimbFrame>(
  d: Definition<F>,
  variants: readonly Variant<F>[],
  films: readonly LimbFilm<F>[],
): Candidate<F> | null {
  let best: Candidate<F> | null = null;
  for (const variant of variants) {
    const fit = films.filter((f) => variant.views.includes(f.film.view));
    fit.sort((a, b) => rank(a, variant) - rank(b, variant));
    for (const film of fit) {
      const missing = variant.inputs.filter((id) => !film.placed.has(id) && !film.faults.has(id));
      if (missing.length === 0) return { variant, film, missing };
      if (!best || missing.length < best.missing.length) best = { variant, film, missing };
    }
  }
  return best;

  // Where millimetres enter, the best-known scale goes before the order of views.
  function rank(f: LimbFilm<F>, v: Variant<F>): number {
    const scale = d.needsScale ? 1e4 * (f.scale?.relativeSd ?? 1) : 0;
    return scale + v.views.indexOf(f.film.view);
  }
}

function measured<F extends LimbFrame>(d: Definition<F>, evidence: KneeEvidence, c: Candidate<F>): Measurement {
  const { variant, film } = c;
  const fault = variant.inputs.map((id) => film.faults.get(id)).find((reason) => reason !== undefined);
  if (fault) return refused(d, evidence, fault, variant.inputs);
  if ((d.needsScale || variant.needsInsert) && film.scale === null)
    return refused(d, evidence, NO_SCALE, variant.inputs);
  const insert = variant.needsInsert ? (evidence.implants?.insertMm ?? null) : null;
  if (variant.needsInsert && insert === null) return refused(d, evidence, NO_INSERT, variant.inputs);
  const { reading, perturbations, complete } = shakable(film, variant.inputs, insert);
  const formula = () => variant.formula(reading);
  const value = formula();
  if (!value.ok) return refused(d, evidence, value.reason, variant.inputs);
  const isClass = d.classes !== undefined;
  const sd = isClass ? null : complete ? propagatedSd(formula, perturbations) : (d.readingSd ?? null);
  const causes = d.keepsCauses && complete ? causesOf(formula, perturbations) : null;
  const name = d.classes ? `${d.classes[value.value - 1]}; ${variant.name}` : variant.name;
  return {
    ...head(d, evidence),
    value: value.value,
    sd,
    ...(causes ? { causes } : {}),
    film: film.film.id,
    scale: d.needsScale || variant.needsInsert ? (film.scale?.source ?? 'none') : 'not-needed',
    ...(name ? { variant: name } : {}),
    inputs: variant.inputs,
    flags: [...value.warnings, ...cautions(d, evidence, c), ...(complete || isClass ? [] : [UNSCALED_SPREAD])],
  };
}

/** What each cause adds to the spread; causes that add nothing are left out. */
function causesOf(
  formula: () => Outcome<number>,
  perturbations: readonly Perturbation[],
): Readonly<Record<string, number>> | null {
  const shares = propagatedShares(formula, perturbations);
  if (!shares) return null;
  const named = perturbations.map(({ cause }, i): [string, number] => [cause ?? `input ${i + 1}`, shares[i] ?? 0]);
  return Object.fromEntries(named.filter(([, share]) => Math.abs(share) > 1e-6));
}

function cautions<F extends LimbFrame>(
  d: Definition<F>,
  evidence: KneeEvidence,
  { variant, film }: Candidate<F>,
): readonly Warning[] {
  const doubtful = (d.needsScale || variant.needsInsert) && film.scale?.doubtful;
  return [
    ...(variant.cautions ?? []),
    ...(d.posture ? postureCautions(d.posture, film.film, evidence.examination) : []),
    ...(doubtful
      ? [{ code: 'scale-doubtful', message: film.scale.because, field: `films[${film.film.id}].scale` }]
      : []),
  ];
}

const UNSCALED_SPREAD: Warning = {
  code: 'spread-from-publications',
  message:
    'The film has no scale, so the spread of marking is not known in pixels: the spread shown is the published reading error.',
  mend: 'Calibrate the film.',
};

const head = <F extends LimbFrame>(d: Definition<F>, evidence: KneeEvidence) => ({
  id: d.id,
  label: d.label,
  side: evidence.side,
  unit: d.unit,
  sign: d.sign,
  rule: d.rule,
  source: d.source,
  ...(d.normal ? { normal: d.normal } : {}),
});

const none = { value: null, sd: null, film: null, flags: [] };

const refused = <F extends LimbFrame>(
  d: Definition<F>,
  e: KneeEvidence,
  reason: Reason,
  inputs: readonly LandmarkId[],
): Measurement => ({
  ...head(d, e),
  ...none,
  scale: d.needsScale ? 'none' : 'not-needed',
  inputs,
  refused: reason,
});

const absent = <F extends LimbFrame>(d: Definition<F>, e: KneeEvidence, c: Candidate<F>): Measurement => ({
  ...head(d, e),
  ...none,
  scale: d.needsScale ? 'none' : 'not-needed',
  ...(c.variant.name ? { variant: c.variant.name } : {}),
  inputs: c.variant.inputs,
  missing: c.missing,
});

/** No film of a fitting view: the first unreadable one says why, else the view itself is missing. */
function nothing<F extends LimbFrame>(d: Definition<F>, where: Where<F>, variants: readonly Variant<F>[]): Measurement {
  const views = new Set(variants.flatMap((v) => v.views));
  const unreadable = where.evidence.films.find(
    (f) => f.role === 'present' && views.has(f.view) && where.unreadable.has(f.id),
  );
  const reason = unreadable && where.unreadable.get(unreadable.id);
  return refused(
    d,
    where.evidence,
    reason ?? {
      code: 'no-such-film',
      message: `Needs a film of the ${where.evidence.side} knee: ${[...views].join(' or ')}.`,
      field: 'films',
      mend: 'Add such a film.',
    },
    variants[0]?.inputs ?? [],
  );
}
