import { chiSquareP } from '../measure/chi-square.ts';
import { cannot, type Outcome, ok, type Warning } from '../measure/outcome.ts';
import { cholesky, solveCholesky } from './cholesky.ts';
import { covariance } from './covariance.ts';
import type { JointLineCorrelations, JointLineEstimate, JointLineOpinion } from './estimate-types.ts';

/** Below this chance the landmarks are said to disagree (JL-9). */
export const DISAGREE_BELOW_P = 0.05;

interface Fused {
  readonly heightMm: number;
  readonly sdMm: number;
  readonly weights: readonly number[];
  readonly q: number;
}

/**
 * Consensus of correlated landmark opinions on where the joint line belongs (JL-8): generalised least squares with the
 * covariance of `covariance.ts`, chi-square test of agreement with n - 1 degrees of freedom (JL-9), each landmark's leave-one-out estimate.
 * Heights mm over the present joint line, proximal +. Result: height and spread in mm, weights that sum to 1.
 * One opinion: its own value and spread, no test. Refuses no opinion at all, and correlations that no set of errors can have.
 * Example: 10 and 14 mm, spreads 2 and 2, no correlation -> 12.0 mm, spread 1.414, Q 2.0.
 */
export function consensus(
  opinions: readonly JointLineOpinion[],
  correlations: JointLineCorrelations,
): Outcome<JointLineEstimate> {
  if (opinions.length === 0) return cannot(NO_OPINION);
  const all = fuse(opinions, correlations);
  if (!all) return cannot(IMPOSSIBLE_CORRELATIONS);
  const agreement = agreementOf(all.q, opinions.length - 1);
  const warnings = cautions(opinions, all, agreement?.disagree ?? false);
  return ok(
    {
      heightMm: all.heightMm,
      sdMm: all.sdMm,
      shiftMm: 0 - all.heightMm,
      agreement,
      opinions: opinions.map((o, i) => ({
        ...o,
        weight: all.weights[i] ?? 0,
        leaveOneOutMm: fuse(opinions.toSpliced(i, 1), correlations)?.heightMm ?? null,
        residualMm: o.heightMm - all.heightMm,
      })),
      correlations,
      warnings,
    },
    warnings,
  );
}

function fuse(opinions: readonly JointLineOpinion[], correlations: JointLineCorrelations): Fused | null {
  if (opinions.length === 0) return null;
  const lower = cholesky(covariance(opinions, correlations));
  if (!lower) return null;
  const ones = solveCholesky(
    lower,
    opinions.map(() => 1),
  );
  const information = ones.reduce((s, v) => s + v, 0);
  const weights = ones.map((v) => v / information);
  const heightMm = weights.reduce((s, w, i) => s + w * (opinions[i]?.heightMm ?? 0), 0);
  const residuals = opinions.map((o) => o.heightMm - heightMm);
  const solved = solveCholesky(lower, residuals);
  const q = residuals.reduce((s, r, i) => s + r * (solved[i] ?? 0), 0);
  return { heightMm, sdMm: Math.sqrt(1 / information), weights, q: Math.max(0, q) };
}

function agreementOf(q: number, degrees: number): JointLineEstimate['agreement'] {
  if (degrees < 1) return null;
  const p = chiSquareP(q, degrees);
  return p.ok ? { q, degrees, p: p.value, disagree: p.value < DISAGREE_BELOW_P } : null;
}

/** Shift of the joint line from which results suffer, mm: van Lieshout 2019 (4), Partington 1999 (8). */
const SHIFT_MM = { notable: 4, severe: 8 } as const;

function cautions(opinions: readonly JointLineOpinion[], fused: Fused, disagree: boolean): readonly Warning[] {
  const out: Warning[] = [];
  if (disagree)
    out.push({
      code: 'landmarks-disagree',
      message:
        'Landmarks disagree: they lie further apart than their spreads allow. Look at each one before using a single number.',
      mend: 'Check the marks; leave out a landmark whose bone is destroyed or cannot be seen.',
    });
  for (const o of opinions) {
    const sd = Math.hypot(o.personSdMm, o.markingSdMm);
    if (opinions.length > 1 && Math.abs(o.heightMm - fused.heightMm) > 2.5 * sd)
      out.push({
        code: 'landmark-far-off',
        message: `${o.label} lies ${Math.abs(o.heightMm - fused.heightMm).toFixed(1)} mm from the consensus, more than 2.5 of its spreads.`,
        field: `marks[${o.id}]`,
        mend: 'Check this mark first.',
      });
  }
  const shift = Math.abs(fused.heightMm);
  const way = fused.heightMm < 0 ? 'raised' : 'lowered';
  if (shift > SHIFT_MM.severe)
    out.push({ code: 'joint-line-far-off', message: `The joint line stands ${way} by more than 8 mm.` });
  else if (shift > SHIFT_MM.notable)
    out.push({ code: 'joint-line-off', message: `The joint line stands ${way} by more than 4 mm.` });
  return out;
}

const NO_OPINION = {
  code: 'no-landmark',
  message: 'No landmark gives an opinion on the joint line.',
  mend: 'Mark the adductor tubercle and both epicondyles.',
} as const;

const IMPOSSIBLE_CORRELATIONS = {
  code: 'correlations-impossible',
  message: 'The correlations of the joint-line settings contradict each other, or an opinion has no spread.',
  field: 'settings.correlations',
  mend: 'Choose correlations from 0 to below 1, the one across bones not above those within a bone.',
} as const;
