import { Z95 } from '../measure/quantity.ts';
import type { EvidenceId } from './evidence-table.ts';
import type { Looked } from './weigh-evidence.ts';

/** A measured number as it comes from the measurement table; null values are not measured. */
export interface MeasuredFinding {
  readonly value: number | null;
  readonly sd: number | null;
  readonly film: string | null;
}

/** What the films say that bears on a cause. All in the signs of the measurement table. */
export interface MeasuredFindings {
  /** Deviation of the limb, valgus +, deg. */
  readonly hka?: MeasuredFinding;
  /** Coronal angle of the tray, 90 = square to the tibia, deg. */
  readonly trayCoronal?: MeasuredFinding;
  /** Present joint line against its target, raised +, mm. */
  readonly jointLineShift?: MeasuredFinding;
  /** True or pseudo patella baja, as read from the indices. */
  readonly patellaBaja?: { readonly reading: 'true' | 'pseudo' | 'none' | null; readonly film: string | null };
  /** Overhang beyond the bone, largest side, mm. */
  readonly overhang?: MeasuredFinding;
  /** Rotation of both components together on CT against the native knee, external +, deg. */
  readonly combinedRotation?: MeasuredFinding;
}

export interface MeasuredEvidence {
  readonly id: EvidenceId;
  readonly looked: Looked;
  /** Why, in one sentence with the numbers. */
  readonly because: string;
  readonly film: string | null;
}

/** Limits by which a measurement becomes a finding, each beside its source. */
export const FINDING_LIMITS = {
  alignmentDeg: { limit: 3, source: 'traditional target 180 +/- 3 (from memory); not a threshold for revision' },
  jointLineMm: { limit: 5, source: 'Porteous 2008 (5 mm); Figgie 1986 and Partington 1999 (8 mm)' },
  overhangMm: { limit: 3, source: 'usual reporting threshold in overhang studies' },
  internalRotationDeg: { limit: 3, source: 'the item of CAUSE-2; no cut-off for revision is known (Valkering 2015)' },
} as const;

type Reading = 'beyond' | 'within' | 'unsettled' | 'unmeasured';

/** Beyond or within only when the 95 % interval agrees; otherwise unsettled. */
function against(m: MeasuredFinding | undefined, centre: number, limit: number, oneSided = false): Reading {
  if (!m || m.value === null) return 'unmeasured';
  const off = oneSided ? m.value - centre : Math.abs(m.value - centre);
  const margin = Z95 * (m.sd ?? 0);
  if (off - margin > limit) return 'beyond';
  return off + margin <= limit ? 'within' : 'unsettled';
}

const looked = (readings: readonly Reading[]): Looked =>
  readings.includes('beyond')
    ? 'present'
    : readings.length > 0 && readings.every((r) => r === 'within')
      ? 'absent'
      : 'unknown';

const show = (m: MeasuredFinding | undefined, unit: string) =>
  !m || m.value === null
    ? 'not measured'
    : `${m.value.toFixed(1)} ${unit}${m.sd === null ? '' : ` +/- ${(Z95 * m.sd).toFixed(1)}`}`;

/**
 * CAUSE-6: turns measurements into evidence. A finding is present only when it lies beyond its limit with 95 %
 * certainty, absent only when it lies within with the same certainty, otherwise not known: an uncertain film neither
 * accuses nor clears. Where two measurements feed one item, one beyond is enough; absence needs both.
 */
export function evidenceFromMeasurements(m: MeasuredFindings): readonly MeasuredEvidence[] {
  const { alignmentDeg, jointLineMm, overhangMm, internalRotationDeg } = FINDING_LIMITS;
  const rotation = m.combinedRotation;
  const internal = rotation && { ...rotation, value: rotation.value === null ? null : -rotation.value };
  const alignment = [against(m.hka, 0, alignmentDeg.limit), against(m.trayCoronal, 90, alignmentDeg.limit)];
  const line = against(m.jointLineShift, 0, jointLineMm.limit);
  const bajaReading = m.patellaBaja?.reading ?? null;
  const baja: Reading = bajaReading === null ? 'unmeasured' : bajaReading === 'none' ? 'within' : 'beyond';
  return [
    {
      id: 'alignment-outlier-over-3',
      looked: looked(alignment),
      because: `Limb ${show(m.hka, 'deg')}, tray ${show(m.trayCoronal, 'deg')}; limit ${alignmentDeg.limit} deg.`,
      film: m.hka?.film ?? m.trayCoronal?.film ?? null,
    },
    {
      id: 'joint-line-shift-or-baja',
      looked: looked([line, baja]),
      because: `Joint line ${show(m.jointLineShift, 'mm')}, limit ${jointLineMm.limit} mm; patella baja: ${bajaReading ?? 'not measured'}.`,
      film: m.jointLineShift?.film ?? m.patellaBaja?.film ?? null,
    },
    {
      id: 'component-overhang',
      looked: looked([against(m.overhang, 0, overhangMm.limit, true)]),
      because: `Overhang ${show(m.overhang, 'mm')}; limit ${overhangMm.limit} mm.`,
      film: m.overhang?.film ?? null,
    },
    {
      id: 'ct-combined-internal-rotation-over-3',
      looked: looked([against(internal, 0, internalRotationDeg.limit, true)]),
      because: `Both components together on CT ${show(rotation, 'deg')}, internal negative; limit ${internalRotationDeg.limit} deg internal.`,
      film: rotation?.film ?? null,
    },
  ];
}
