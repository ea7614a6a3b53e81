import type { CaseFile } from '@gapline/core/plan/case.ts';
import { type Pixel, projected } from './beam.ts';
import { shaftMiddle } from './bone.ts';
import type { Chance } from './chance.ts';
import { movedMesh } from './mesh.ts';
import { crossingsOfShadow, direction, shadow } from './outline.ts';
import type { Scene, Standing } from './scene.ts';
import { moved, type Point3 } from './space.ts';

type Trace = NonNullable<CaseFile['canals']>[number];

/** Levels of a trace over the native joint line, mm: first, last and step. The metaphysis below is no canal yet. */
const LEVELS = { femur: [60, 240, 12], tibia: [50, 240, 12] } as const;

/** Standard deviation with which a person marks a wall of the canal, mm, when marks are jittered (invented). */
export const WALL_SD_MM = 0.4;

/** Both walls of one bone's canal, inner and outer cortex, where the film shows them: true places on the film, from the joint outwards. */
export function trueCanal(scene: Scene, s: Standing, bone: 'femur' | 'tibia'): Trace['levels'] {
  const { beam } = scene;
  const { outer, inner } = s.leg[bone];
  const sign = bone === 'femur' ? 1 : -1;
  const far = bone === 'femur' ? s.leg.limb.femurMm : s.leg.limb.tibiaMm;
  const middle = shaftMiddle(outer, Math.min(sign * far, 0) + 20, Math.max(sign * far, 0) - 20);
  const at = (z: number): Pixel => projected(beam, moved(s.pose[bone], [...middle(z), z] as unknown as Point3));
  const [first, last, step] = LEVELS[bone];
  const shadows = [inner, outer].map((m) => ({
    points: shadow(beam, movedMesh(m, s.pose[bone])),
    triangles: m.triangles,
  }));
  const edge = 0.014 * Math.min(beam.columns, beam.rows);
  const onFilm = (p: Pixel) => p.x >= edge && p.y >= edge && p.x < beam.columns - edge && p.y < beam.rows - edge;
  const levels: Trace['levels'][number][] = [];
  for (let h = first; h <= Math.min(last, far - 100); h += step) {
    const z = sign * h;
    const axis = direction(at(z - 25 * sign), at(z + 25 * sign));
    const across = { x: -axis.y, y: axis.x };
    const [canal, shaft] = shadows.map((m) => crossingsOfShadow(m, at(z), across));
    if (!canal || !shaft || ![...canal, ...shaft].every(onFilm)) break;
    levels.push({ innerA: canal[0], innerB: canal[1], outerA: shaft[0], outerB: shaft[1] });
  }
  return levels;
}

const placed = (p: Pixel, mmPerPx: number, jitter: Chance | null): Pixel => {
  const moved = (v: number) => Math.round((jitter ? v + jitter.normal(0, WALL_SD_MM / mmPerPx, 4) : v) * 100) / 100;
  return { x: moved(p.x), y: moved(p.y) };
};

/** The canals of the operated leg as a person would have traced them on one film; without those too short to be of use. */
export function tracedCanals(
  scene: Scene,
  s: Standing,
  told: { readonly film: string; readonly mmPerPx: number; readonly jitter: Chance | null },
): readonly Trace[] {
  const traces = (['femur', 'tibia'] as const).map((bone): Trace => {
    const mark = (p: Pixel) => placed(p, told.mmPerPx, told.jitter);
    const levels = trueCanal(scene, s, bone).map((l) => ({
      innerA: mark(l.innerA),
      innerB: mark(l.innerB),
      ...(l.outerA && l.outerB ? { outerA: mark(l.outerA), outerB: mark(l.outerB) } : {}),
    }));
    return { bone, film: told.film, levels, ...(told.jitter ? { sdMm: WALL_SD_MM } : {}) };
  });
  return traces.filter((t) => t.levels.length >= 3);
}
