import { type BallSearch, findBalls } from '@gapline/film/proposals/find-balls.ts';
import { projected } from '@gapline/phantoms/src/beam.ts';
import { sphereOutline } from '@gapline/phantoms/src/landmarks.ts';
import type { Tallies } from './score.ts';
import type { VariedFilm } from './varied-films.ts';

/** The centre may be off by 1 mm, the radius by 2 %, the spread that a ball's scale carries anyway (SCALE-15). */
const ALLOWED = { centreMm: 1, radius: 0.02 } as const;

/** The ball's true shadow: the mean of its outline, and the mean distance from there. */
function trueBall({ scene }: VariedFilm) {
  if (!scene.ball) return null;
  const outline = sphereOutline(scene, scene.ball.centre, scene.ball.radiusMm, 64);
  const x = outline.reduce((s, p) => s + p.x, 0) / outline.length;
  const y = outline.reduce((s, p) => s + p.y, 0) / outline.length;
  const radius = outline.reduce((s, p) => s + Math.hypot(p.x - x, p.y - y), 0) / outline.length;
  const { columns, rows } = scene.beam;
  const middle = projected(scene.beam, scene.ball.centre);
  const whole = middle.x > radius && middle.y > radius && middle.x < columns - radius && middle.y < rows - radius;
  return whole ? { x, y, radius } : null;
}

/** The ball, looked for anywhere on the film without a hint, and again with its diameter; a confident ball on a film without one is wrong. */
export function judgeBalls(one: VariedFilm, tallies: Tallies): void {
  judge(one, { name: 'ball', search: {} }, tallies);
  const diameterMm = 2 * (one.scene.ball?.radiusMm ?? 12.5);
  const search = { diameterMm, detectorMmPerPx: one.scene.beam.spacingMm };
  judge(one, { name: 'ball of known diameter', search }, tallies);
}

function judge(one: VariedFilm, { name, search }: { name: string; search: BallSearch }, tallies: Tallies): void {
  const truth = trueBall(one);
  const found = findBalls(one.film, search);
  const best = found.ok ? found.value[0] : undefined;
  if (!truth) {
    if (one.scene.ball) return;
    const made = best ? { px: 0, mm: 0, confident: best.confident, wrong: true } : null;
    tallies.add(`film without a ${name}`, made);
    return;
  }
  if (!best) {
    tallies.add(`${name}, centre`, null);
    tallies.add(`${name}, radius`, null);
    return;
  }
  const off = Math.hypot(best.centre.x - truth.x, best.centre.y - truth.y);
  const grown = Math.abs(best.radiusPx - truth.radius);
  const wrong = off * one.mmPerPx > ALLOWED.centreMm || grown > ALLOWED.radius * truth.radius;
  const { confident } = best;
  tallies.add(`${name}, centre`, { px: off, mm: off * one.mmPerPx, confident, wrong });
  tallies.add(`${name}, radius`, { px: grown, mm: grown * one.mmPerPx, confident, wrong });
}
