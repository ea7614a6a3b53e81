import { fitCircle } from '@gapline/core/plane/circle.ts';
import { fitHead } from '@gapline/film/proposals/fit-head.ts';
import { projected } from '@gapline/phantoms/src/beam.ts';
import { chance } from '@gapline/phantoms/src/chance.ts';
import { pointAt, pointCount } from '@gapline/phantoms/src/mesh.ts';
import type { Scene, Standing } from '@gapline/phantoms/src/scene.ts';
import { moved } from '@gapline/phantoms/src/space.ts';
import type { Tallies } from './score.ts';
import type { VariedFilm } from './varied-films.ts';

const ALLOWED_MM = 2;

/**
 * Best circle through the true shadow of the head away from the neck. The bone of the phantoms is a real one, whose head is
 * flattened below by a millimetre or two: its nominal sphere is not what a film shows.
 */
export function trueHead(scene: Scene, s: Standing): { x: number; y: number; radius: number } | null {
  const { outer, at, headRadiusMm } = s.leg.femur;
  const [hx, hy, hz] = at.headCentre;
  const middle = projected(scene.beam, moved(s.pose.femur, at.headCentre));
  const aside = projected(scene.beam, moved(s.pose.femur, [hx + 30, hy, hz]));
  const lateral = aside.x > middle.x ? 1 : -1;
  const rim = new Map<number, { x: number; y: number; r: number }>();
  for (let i = 0; i < pointCount(outer); i++) {
    const p = pointAt(outer, i);
    if (Math.hypot(p[0] - hx, p[1] - hy, p[2] - hz) > 1.2 * headRadiusMm) continue;
    const q = projected(scene.beam, moved(s.pose.femur, p));
    const turn = (Math.atan2(middle.y - q.y, lateral * (q.x - middle.x)) * 180) / Math.PI;
    const up = (turn + 360) % 360;
    if (up < 30 || up > 260) continue;
    const sector = Math.floor(up / 6);
    const r = Math.hypot(q.x - middle.x, q.y - middle.y);
    if (r > (rim.get(sector)?.r ?? 0)) rim.set(sector, { ...q, r });
  }
  const fit = fitCircle([...rim.values()].map(({ x, y }) => ({ frame: 'film' as const, x, y })));
  return fit.ok ? { ...fit.value.centre, radius: fit.value.radius } : null;
}

/** Both heads of a long-leg film, pointed at up to a third of the radius off the middle. */
export function judgeHeads({ seed, scene, film, mmPerPx }: VariedFilm, tallies: Tallies): void {
  const c = chance(seed, 'pointing at the head');
  for (const s of scene.legs) {
    const truth = trueHead(scene, s);
    if (!truth) continue;
    const hint = () => (truth.radius / 3) * (2 * c.uniform() - 1);
    const near = { frame: 'film', x: truth.x + hint(), y: truth.y + hint() } as const;
    const found = fitHead(film, { near, mmPerPx: scene.beam.spacingMm });
    if (!found.ok) {
      tallies.add('femoral head, centre', null);
      continue;
    }
    const px = Math.hypot(found.value.centre.x - truth.x, found.value.centre.y - truth.y);
    tallies.add('femoral head, centre', {
      px,
      mm: px * mmPerPx,
      confident: found.value.confident,
      wrong: px * mmPerPx > ALLOWED_MM,
    });
  }
}
