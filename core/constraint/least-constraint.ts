import type { BoneClass, LigamentState } from '../bone/bone-class.ts';
import { CONSTRAINT_LEVELS, type ConstraintLevel } from '../catalogue/catalogue.ts';
import type { Reason } from '../measure/outcome.ts';

/** What is known about the envelope that holds the knee. */
export interface Envelope {
  readonly mcl: LigamentState;
  readonly lcl: LigamentState;
  readonly extensorMechanism: LigamentState;
  /** Passive hyperextension, deg; null = not examined. */
  readonly recurvatumDeg: number | null;
  readonly femurClass: BoneClass;
  /** Largest opening of either side in extension with the construct in, mm, + = loose; absent = not asked. */
  readonly openingMm?: number;
  /** Flexion gap less extension gap with the construct in, mean of both sides, mm; absent = not asked. */
  readonly flexionLessExtensionMm?: number;
}

export interface LeastConstraint {
  readonly level: ConstraintLevel;
  /** Why not less; empty at the first level. */
  readonly reasons: readonly Reason[];
  /** What to have ready or to ask, whatever the level. */
  readonly notes: readonly Reason[];
}

/** Most that a level accepts, mm: opening of a side in extension, and flexion gap less extension gap (CON-4, CON-6). */
export const ACCEPTS: Readonly<Record<ConstraintLevel, { openingMm: number; flexionLessExtensionMm: number }>> = {
  ps: { openingMm: 5, flexionLessExtensionMm: 4 },
  vvc: { openingMm: 10, flexionLessExtensionMm: 8 },
  hinge: { openingMm: Number.POSITIVE_INFINITY, flexionLessExtensionMm: Number.POSITIVE_INFINITY },
};

/** Passive hyperextension from which only an extension stop will do, deg (CON-3). */
export const RECURVATUM_DEG = 10;

const because = (code: string, message: string): Reason => ({ code, message });

function forHinge(e: Envelope): Reason[] {
  const found: Reason[] = [];
  if (e.extensorMechanism === 'absent')
    found.push(
      because('CON-1', 'The extensor mechanism is lost: arthrodesis pathway first, a hinge only by decision.'),
    );
  if (e.mcl === 'absent')
    found.push(
      because(
        'CON-2',
        e.lcl === 'absent' ? 'Both collateral ligaments are absent.' : 'The medial collateral ligament is absent.',
      ),
    );
  if (e.recurvatumDeg !== null && e.recurvatumDeg >= RECURVATUM_DEG)
    found.push(because('CON-3', `Hyperextension of ${e.recurvatumDeg} degrees needs an extension stop.`));
  if (e.openingMm !== undefined && e.openingMm > ACCEPTS.vvc.openingMm)
    found.push(because('CON-4', `A side opens more than ${ACCEPTS.vvc.openingMm} mm in extension.`));
  if (e.flexionLessExtensionMm !== undefined && e.flexionLessExtensionMm > ACCEPTS.vvc.flexionLessExtensionMm)
    found.push(
      because('CON-4', `Flexion gap exceeds extension gap by more than ${ACCEPTS.vvc.flexionLessExtensionMm} mm.`),
    );
  return found;
}

function forVarusValgus(e: Envelope): Reason[] {
  const found: Reason[] = [];
  if (e.mcl === 'attenuated') found.push(because('CON-6', 'The medial collateral ligament is attenuated.'));
  if (e.lcl === 'absent') found.push(because('CON-6', 'The lateral collateral ligament is absent.'));
  if (e.openingMm !== undefined && e.openingMm > ACCEPTS.ps.openingMm)
    found.push(because('CON-6', `A side opens more than ${ACCEPTS.ps.openingMm} mm in extension.`));
  if (e.flexionLessExtensionMm !== undefined && e.flexionLessExtensionMm > ACCEPTS.ps.flexionLessExtensionMm)
    found.push(
      because('CON-6', `Flexion gap exceeds extension gap by more than ${ACCEPTS.ps.flexionLessExtensionMm} mm.`),
    );
  return found;
}

function remarks(e: Envelope): Reason[] {
  const notes: Reason[] = [];
  const unknown = [
    ...(e.mcl === 'unknown' ? ['medial collateral ligament'] : []),
    ...(e.lcl === 'unknown' ? ['lateral collateral ligament'] : []),
  ];
  if (unknown.length > 0)
    notes.push({
      code: 'CON-8',
      message: `A hinge must be in theatre: the ${unknown.join(' and the ')} ${unknown.length > 1 ? 'are' : 'is'} not known.`,
      field: e.mcl === 'unknown' ? 'examination.mcl' : 'examination.lcl',
      mend: 'Examine under stress, and enter intact, attenuated or absent.',
    });
  else if (e.mcl === 'attenuated')
    notes.push(because('CON-8', 'A hinge must be in theatre: the medial collateral ligament is attenuated.'));
  if (e.recurvatumDeg === null)
    notes.push({
      code: 'CON-3',
      message: 'Hyperextension was not examined: from 10 degrees on only a hinge would do.',
      field: 'examination.recurvatumDeg',
      mend: 'Enter the passive hyperextension in degrees, 0 for none.',
    });
  if (e.extensorMechanism === 'unknown')
    notes.push({
      code: 'CON-1',
      message: 'The extensor mechanism was not examined.',
      field: 'examination.extensorMechanism',
      mend: 'Enter intact, attenuated or absent.',
    });
  if (e.femurClass === '3')
    notes.push(
      because('CON-5', 'Femoral class 3: if the epicondyles are lost, a hinge on a distal femoral replacement.'),
    );
  return notes;
}

/**
 * Least constraint that a knee needs, from ligaments, hyperextension and, where given, the gaps with the construct in
 * (docs/rules/constraint.md, in order). Never less than known findings demand; what is not known does not raise the
 * level but forces a hinge to be in theatre, and says so.
 *
 * @returns the level on the ladder ps, vvc, hinge; the rules that forbid less; notes.
 * Source: indications in Marya and Singh 2021 and Adravanti and Vasta 2017; the numbers are planning defaults, grade D.
 * Example: everything intact and examined gives `ps` without reasons.
 */
export function leastConstraint(envelope: Envelope): LeastConstraint {
  const notes = remarks(envelope);
  const hinge = forHinge(envelope);
  if (hinge.length > 0) return { level: 'hinge', reasons: hinge, notes };
  const vvc = forVarusValgus(envelope);
  if (vvc.length > 0) return { level: 'vvc', reasons: vvc, notes };
  return { level: 'ps', reasons: [], notes };
}

/** Position on the ladder, 0 = least. */
export const levelRank = (level: ConstraintLevel): number => CONSTRAINT_LEVELS.indexOf(level);
