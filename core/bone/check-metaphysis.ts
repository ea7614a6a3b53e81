import type { Reason } from '../measure/outcome.ts';
import { type MapOfBone, mapField, metaphysisOf } from './map-of-bone.ts';

/** What is known of a bone's size from elsewhere, mm. */
export interface SizeOfBone {
  /** Mediolateral and anteroposterior width at the cut. */
  readonly widthMm?: number;
  readonly apMm?: number;
  /** Inner width of the canal. */
  readonly canalMm?: number;
}

/** Metaphysis and shaft of the map against themselves and against the size of the bone (BONE-7). */
export function checkMetaphysis(m: MapOfBone, size: SizeOfBone): readonly Reason[] {
  const { cavityWidthMm, cavityApMm, wallMm, hostContactPct, flare } = metaphysisOf(m);
  const { outerDiameterMm } = m.map.diaphysis ?? {};
  const found: Reason[] = [];
  const clash = (name: string, message: string, mend: string) =>
    found.push({ code: 'bone-map-contradicts', message, field: `${mapField(m.bone)}.${name}`, mend });
  const wall = wallMm ?? 0;
  const across = (name: string, label: string, [cavity, bone]: readonly [number | undefined, number | undefined]) => {
    if (cavity === undefined || bone === undefined || cavity + 2 * wall <= bone) return;
    const walls = wall > 0 ? ` with ${wall} mm of wall on each side` : '';
    clash(
      `metaphysis.${name}`,
      `The cavity is ${cavity} mm ${label}${walls}, wider than the bone (${bone.toFixed(0)} mm).`,
      wall > 0
        ? 'Correct the cavity, the wall or the width of the bone.'
        : 'Correct the cavity or the width of the bone.',
    );
  };
  across('cavityWidthMm', 'wide', [cavityWidthMm, size.widthMm]);
  across('cavityApMm', 'front to back', [cavityApMm, size.apMm]);
  if (wallMm === 0 && hostContactPct === 100)
    clash('metaphysis.hostContactPct', 'A wall is gone, but all of the cavity is host bone.', 'Correct wall or share.');
  if (flare === 'absent' && hostContactPct === 100)
    clash(
      'metaphysis.hostContactPct',
      'The flare is gone, but all of the cavity is host bone.',
      'Correct flare or share.',
    );
  if (outerDiameterMm !== undefined && size.canalMm !== undefined && size.canalMm >= outerDiameterMm)
    clash(
      'diaphysis.outerDiameterMm',
      `The shaft is ${outerDiameterMm} mm outside, but its canal ${size.canalMm} mm inside.`,
      'Correct the diameter or the canal.',
    );
  return found;
}
