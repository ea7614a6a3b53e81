import { snapToEdge } from '@gapline/film/proposals/snap-to-edge.ts';
import type { Pixel } from '@gapline/phantoms/src/beam.ts';
import { trueCanal } from '@gapline/phantoms/src/canal-walls.ts';
import { chance } from '@gapline/phantoms/src/chance.ts';
import type { Tallies } from './score.ts';
import type { VariedFilm } from './varied-films.ts';

const ALLOWED_MM = 0.7;

/** A press errs across the edge by this, mm: the marking spread of an edge of metal or cortex. */
const PRESS_SD_MM = 0.6;

/** Places on true edges: the outer cortices of the shafts, and the condyles of metal where the distal tangent touches. */
function trueEdges({ scene, standing, marks, view }: VariedFilm): { what: string; at: Pixel; across: Pixel }[] {
  const bone = (['femur', 'tibia'] as const).flatMap((name) =>
    trueCanal(scene, standing, name)
      .filter((_, i) => i % 3 === 1)
      .flatMap(({ outerA: a, outerB: b }) =>
        a && b
          ? [
              { what: 'edge of bone', at: a, across: way(a, b) },
              { what: 'edge of bone', at: b, across: way(b, a) },
            ]
          : [],
      ),
  );
  if (view === 'lateral' || !standing.leg.inPlace) return bone;
  const one = (id: string) => marks.find((m) => m.landmark === id && m.side === standing.side)?.points[0];
  const [m, l] = [one('medial-condyle-distal'), one('lateral-condyle-distal')];
  if (!m || !l) return bone;
  const along = way(m, l);
  const metal = [m, l].map((at) => ({ what: 'edge of metal', at, across: { x: -along.y, y: along.x } }));
  return [...bone, ...metal];
}

const way = (a: Pixel, b: Pixel): Pixel => {
  const d = Math.hypot(b.x - a.x, b.y - a.y);
  return { x: (b.x - a.x) / d, y: (b.y - a.y) / d };
};

/** Presses near true edges, snapped without being told the direction; told what is meant, as by a landmark, and for the kind of edge not. */
export function judgeEdges(one: VariedFilm, tallies: Tallies): void {
  const c = chance(one.seed, `pressing near edges ${one.view}`);
  for (const { what, at, across } of trueEdges(one)) {
    const off = c.normal(0, PRESS_SD_MM, 2.5) / one.mmPerPx;
    const press = { frame: 'film', x: at.x + off * across.x, y: at.y + off * across.y } as const;
    const meant = what === 'edge of metal' ? 'metal-bone' : 'bone-soft-tissue';
    const reachPx = 2.5 / one.mmPerPx;
    const told = snapToEdge(one.film, { at: press, reachPx, kind: meant });
    const untold = snapToEdge(one.film, { at: press, reachPx });
    if (!told.ok || !untold.ok) {
      tallies.add(what, null);
      continue;
    }
    const px = Math.abs((told.value.at.x - at.x) * across.x + (told.value.at.y - at.y) * across.y);
    const wrong = px * one.mmPerPx > ALLOWED_MM;
    tallies.add(what, { px, mm: px * one.mmPerPx, confident: told.value.confident, wrong });
    // A press that found another edge, as the border of the field, says nothing of how well kinds are told apart.
    const { towardsBright: way } = untold.value;
    if (!wrong && Math.abs(way.x * across.x + way.y * across.y) > 0.8)
      tallies.add('kind of edge', {
        px: 0,
        mm: 0,
        confident: untold.value.confident,
        wrong: untold.value.kind !== meant,
      });
  }
}
