import { type Chance, chance } from '@gapline/phantoms/src/chance.ts';
import type { RoomSolid } from '@gapline/phantoms/src/exposure.ts';
import { movedMesh } from '@gapline/phantoms/src/mesh.ts';
import type { Scene } from '@gapline/phantoms/src/scene.ts';
import { block, ellipsoid, plate, rod } from '@gapline/phantoms/src/solids.ts';
import { add, type Point3 } from '@gapline/phantoms/src/space.ts';

/** What lies about on films and is not meant: each thing at a place of the room, mm. */
const THINGS: readonly ((at: Point3, c: Chance) => RoomSolid)[] = [
  // A button or coin, lying flat to the beam from in front.
  (at, c) => {
    const r = 5 + 8 * c.uniform();
    const ring = Array.from(
      { length: 40 },
      (_, k) => [r * Math.cos((Math.PI * k) / 20), r * Math.sin((Math.PI * k) / 20)] as const,
    );
    return { mesh: movedMesh(plate(ring, 0, 1.8), { m: [1, 0, 0, 0, 0, 1, 0, 1, 0], shift: at }), metal: 0.8 };
  },
  // A wire or lead.
  (at, c) => {
    const run = (k: number): Point3 => add(at, [(60 * c.uniform() - 30) * k, 0, 70 * k]);
    return { mesh: rod([run(-1), at, run(1)], [0.9, 0.9, 0.9], 10), metal: 0.8 };
  },
  // The bar of a brace.
  (at) => ({ mesh: block(add(at, [-4, -6, -60]), add(at, [4, -4, 60])), metal: 0.7 }),
  // A clip.
  (at, c) => {
    const half = 4 + 6 * c.uniform();
    return { mesh: rod([add(at, [-half, 0, 0]), add(at, [half, 0, 2])], [0.8, 0.8], 8), metal: 0.8 };
  },
  // A tube that soft tissue hardly outshines.
  (at) => ({ mesh: rod([add(at, [-50, 0, -50]), at, add(at, [40, 0, 60])], [3, 3, 3], 12), bone: 0.35 }),
  // A bead, smaller than any ball for calibration.
  (at) => ({ mesh: ellipsoid(at, [3, 3, 3], 16), metal: 0.9 }),
];

/** A scene with up to three things that do not belong there, strewn about the knee. */
export function cluttered(scene: Scene, seed: number): Scene {
  const c = chance(seed, `clutter ${scene.view}`);
  const many = Math.floor(4 * c.uniform());
  const reach: Point3 = scene.view === 'lateral' ? [25, 100, 160] : [110, 40, scene.view === 'long-leg' ? 320 : 160];
  const added = Array.from({ length: many }, () => {
    const thing = THINGS[Math.floor(c.uniform() * THINGS.length)];
    const at = add(scene.kneePoint, [
      reach[0] * (2 * c.uniform() - 1),
      reach[1] * (2 * c.uniform() - 1),
      reach[2] * (2 * c.uniform() - 1),
    ]);
    return thing?.(at, c);
  }).filter((s) => s !== undefined);
  return { ...scene, solids: [...scene.solids, ...added] };
}
