import type { EvidenceId } from '../failure/evidence-table.ts';
import type { Looked } from '../failure/weigh-evidence.ts';
import type { Known } from '../measure/known.ts';
import type { History } from './history.ts';

/** One item of evidence that follows from what was asked or examined. */
export interface DerivedEvidence {
  readonly id: EvidenceId;
  readonly looked: Exclude<Looked, 'unknown'>;
  readonly because: string;
}

/** Openings under stress with the present implant in extension, mm, from the case's examination. */
export interface ExtensionOpening {
  readonly medial: number;
  readonly lateral: number;
}

const LAXITY_LIMIT_MM = 5;
const PAIN_FREE_MONTHS = 24;

const looked = (known: Known | undefined): DerivedEvidence['looked'] | null =>
  known === 'yes' ? 'present' : known === 'no' ? 'absent' : null;

const is = (holds: boolean): DerivedEvidence['looked'] => (holds ? 'present' : 'absent');

/** Present if any is yes; absent only if all are no. */
function anyOf(...known: readonly (Known | undefined)[]): DerivedEvidence['looked'] | null {
  if (known.includes('yes')) return 'present';
  return known.every((k) => k === 'no') ? 'absent' : null;
}

function fromPain(h: History): readonly (readonly [EvidenceId, DerivedEvidence['looked'] | null, string])[] {
  const course = h.painCourse;
  if (course === undefined || course === 'unknown') return [];
  const gradual = course === 'free-then-gradual';
  const long = h.painFreeMonths === undefined ? null : h.painFreeMonths >= PAIN_FREE_MONTHS;
  return [
    ['never-pain-free', is(course === 'never-free'), 'Course of the pain.'],
    [
      'late-start-up-pain',
      gradual ? (long === null ? null : is(long)) : 'absent',
      `Months free of pain: ${h.painFreeMonths ?? 'not known'}.`,
    ],
    ['sudden-onset-after-event', is(course === 'free-then-sudden'), 'Course of the pain.'],
  ];
}

function fromExamination(
  h: History,
  opening: ExtensionOpening | undefined,
): readonly (readonly [EvidenceId, DerivedEvidence['looked'] | null, string])[] {
  const e = h.examination ?? {};
  const { flexionDeg, extensionDeficitDeg, activeLagDeg, drawer90Mm } = e;
  const stiff =
    (flexionDeg !== undefined && flexionDeg < 90) || (extensionDeficitDeg !== undefined && extensionDeficitDeg > 10);
  const motionKnown = flexionDeg !== undefined && extensionDeficitDeg !== undefined;
  const worst = opening ? Math.max(opening.medial, opening.lateral) : null;
  return [
    [
      'flexion-under-90-or-deficit-over-10',
      stiff ? 'present' : motionKnown ? 'absent' : null,
      `Flexion ${flexionDeg ?? 'not known'}, deficit ${extensionDeficitDeg ?? 'not known'} deg.`,
    ],
    ['active-lag', activeLagDeg === undefined ? null : is(activeLagDeg > 0), `Lag ${activeLagDeg} deg.`],
    [
      'drawer-over-5-mm-at-90',
      drawer90Mm === undefined ? null : is(drawer90Mm > LAXITY_LIMIT_MM),
      `Drawer ${drawer90Mm} mm.`,
    ],
    [
      'coronal-laxity-extension',
      worst === null ? null : is(worst > LAXITY_LIMIT_MM),
      `Largest opening in extension ${worst} mm; limit ${LAXITY_LIMIT_MM} mm.`,
    ],
    ['hip-or-root-signs', anyOf(e.hipRotationPainful, e.rootSigns), 'Hip and spine as examined.'],
  ];
}

/**
 * WU-1: evidence that follows from history and examination. Only what was asked or examined gives an item; the rest
 * stays unknown. Limits: flexion 90 and deficit 10 degrees, opening and drawer 5 mm (core/failure, from memory);
 * two years free of pain (the evidence table).
 */
export function evidenceFromHistory(history: History, opening?: ExtensionOpening): readonly DerivedEvidence[] {
  const s = history.symptoms ?? {};
  const rows: readonly (readonly [EvidenceId, DerivedEvidence['looked'] | null, string])[] = [
    ...fromPain(history),
    ['rest-or-night-pain', looked(s['rest-night']), 'Symptoms.'],
    ['recurrent-effusion', looked(s.effusion), 'Symptoms.'],
    ['giving-way', anyOf(s['giving-way'], s.stairs), 'Giving way, stairs.'],
    ['regional-pain-signs', looked(s['skin-touch']), 'Pain on light touch.'],
    ...fromExamination(history, opening),
  ];
  return rows.flatMap(([id, found, because]) => (found === null ? [] : [{ id, looked: found, because }]));
}
