import type { Warning } from '@gapline/core/measure/outcome.ts';

/** A distance above this many usual ones is a gap. */
const GAP = 1.5;
/** Distances that differ by more than this share are uneven. */
const UNEVEN = 0.05;

/** How far the slices of a stack lie apart. */
export interface Spacing {
  /** Median of the distances of neighbours, mm. */
  readonly usualMm: number;
  readonly warnings: readonly Warning[];
}

/**
 * Distances of neighbouring slices, and what is uneven in them (ROT-13). Input: places along the normal in mm, rising, two
 * or more. The first slice is called 1, as on the page.
 */
export function spacingOf(placesMm: readonly number[], file: string): Spacing {
  const apart = placesMm.slice(1).map((at, i) => at - (placesMm[i] ?? 0));
  const sorted = [...apart].sort((a, b) => a - b);
  const usualMm = sorted[Math.floor((sorted.length - 1) / 2)] ?? 0;
  const gaps = apart.flatMap((mm, i) => (mm > GAP * usualMm ? [{ after: i + 1, mm }] : []));
  const uneven = apart.filter((mm) => mm <= GAP * usualMm && Math.abs(mm - usualMm) > UNEVEN * usualMm);
  const warnings: Warning[] = gaps.map(({ after, mm }) => ({
    code: 'slices-missing',
    message: `Between slices ${after} and ${after + 1} lie ${mm.toFixed(1)} mm where ${usualMm.toFixed(1)} mm are usual: about ${missing(mm, usualMm)} missing.`,
    file,
    field: 'slices',
    mend: 'Export the whole series again. What is there can be measured on: each slice carries its own place.',
  }));
  const [least, most] = [sorted[0] ?? 0, sorted.at(-1) ?? 0];
  if (uneven.length > 0)
    warnings.push({
      code: 'slices-uneven',
      message: `Slices lie unevenly: ${least.toFixed(2)} to ${most.toFixed(2)} mm apart, ${usualMm.toFixed(2)} mm as a rule.`,
      file,
      field: 'slices',
      mend: 'Two scans may be mixed in one series. Each slice carries its own place, so measuring on them is not wrong.',
    });
  return { usualMm, warnings };
}

function missing(mm: number, usualMm: number): string {
  const count = Math.max(Math.round(mm / usualMm) - 1, 1);
  return count === 1 ? 'one slice is' : `${count} slices are`;
}
