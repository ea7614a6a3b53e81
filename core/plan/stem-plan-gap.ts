import type { Femur } from '../catalogue/catalogue.ts';
import { flexed, type SagittalPoint, supportMm } from '../gaps/arc-laxity.ts';
import { toRad } from '../measure/angle.ts';

/** What a tilt that the stem forces does to the two gaps, mm; + = looser. */
export interface TiltEffect {
  readonly extensionMm: number;
  readonly flexionMm: number;
}

/** Share of the component's depth that counts as its front, where the flange is. */
const FRONT = 0.75;

/** Top of the flange in the component's own outline; null where no sagittal outline is drawn. */
function flangeTop(outline: readonly SagittalPoint[], apMm: number): SagittalPoint | null {
  return outline
    .filter((p) => p.y > FRONT * apMm)
    .reduce<SagittalPoint | null>((top, p) => (top === null || p.z > top.z + 1e-9 ? p : top), null);
}

/**
 * What a forced flexion of the femoral component does to the gaps (STM-8), by the arc of spec section 4: the component turns about
 * the top of its flange, which stays on the cortex, and its outline reaches less or further towards the tibia.
 *
 * @param flexionDeg + = flexed; mm + = looser. Null where the catalogue draws no outline.
 * From memory: about -0.5 to -1 mm of flexion gap a degree, by size.
 */
export function flexionEffect(femur: Femur, flexionDeg: number): TiltEffect | null {
  const outline = femur.outlines.sagittal.flat().map(([y, z]) => ({ y, z }));
  const top = flangeTop(outline, femur.apMm);
  if (!top) return null;
  const turned = flexed(outline, flexionDeg, top);
  const change = (angleDeg: number) => supportMm(outline, angleDeg) - supportMm(turned, angleDeg);
  return { extensionMm: change(0), flexionMm: change(90) };
}

/** What a slope added by a tibial stem does: opens flexion behind the extension contact, leaves extension (STM-8, GAP-5). */
export const slopeEffect = (
  addedDeg: number,
  { slopeDeg, behindMm }: { readonly slopeDeg: number; readonly behindMm: number },
): TiltEffect => ({
  extensionMm: 0,
  flexionMm: behindMm * (Math.tan(toRad(slopeDeg + addedDeg)) - Math.tan(toRad(slopeDeg))),
});

/** Tilts under this are not spoken of, deg; gaps under this neither, mm. */
const SPOKEN = { deg: 0.05, mm: 0.05 } as const;

/** What forced tilts do to a component and its gaps, in words (STM-8); empty where nothing is forced. Signs as in `componentTilt`. */
export function tiltWords(
  bone: 'femur' | 'tibia',
  { coronalDeg, sagittalDeg }: { readonly coronalDeg: number | null; readonly sagittalDeg: number | null },
  gaps: TiltEffect | null,
): readonly string[] {
  const turned = (deg: number | null, [plus, minus]: readonly [string, string]) =>
    deg === null || Math.abs(deg) < SPOKEN.deg
      ? []
      : [`${Math.abs(deg).toFixed(1)} degrees of ${deg > 0 ? plus : minus}`];
  const gap = (name: string, mm: number | undefined) =>
    mm === undefined || Math.abs(mm) < SPOKEN.mm
      ? []
      : [`${name} ${Math.abs(mm).toFixed(1)} mm ${mm > 0 ? 'looser' : 'tighter'}`];
  return [
    ...turned(coronalDeg, ['valgus', 'varus']),
    ...turned(sagittalDeg, bone === 'femur' ? ['flexion', 'extension'] : ['added slope', 'lost slope']),
    ...gap('extension', gaps?.extensionMm),
    ...gap('flexion', gaps?.flexionMm),
  ];
}
