import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import { type ComponentsProposal, findComponents } from '@gapline/film/proposals/find-components.ts';
import type { Pixel } from '@gapline/phantoms/src/beam.ts';
import { movedMesh } from '@gapline/phantoms/src/mesh.ts';
import { direction, extreme, shadow } from '@gapline/phantoms/src/outline.ts';
import type { Tallies } from './score.ts';
import type { VariedFilm } from './varied-films.ts';

/**
 * A line may be off by 1 degree, from the side, where a tilted tray shows both of its rims, by 2; what it touches by 1 mm across, an end or
 * edge by 1.5 mm: the true edge of a condyle is that point of the model's mesh which lies nearest to the end of the band, a
 * millimetre or so from it.
 */
const ALLOWED = { lineDeg: 1, sideDeg: 2, acrossMm: 1, endMm: 1.5 } as const;

type Pair = readonly [Pixel, Pixel];

function truePair({ marks, standing }: VariedFilm, names: readonly [LandmarkId, LandmarkId]): Pair | null {
  const [a, b] = names.map((id) => marks.find((m) => m.landmark === id && m.side === standing.side)?.points[0]);
  if (!a || !b) return null;
  return a.x <= b.x ? [a, b] : [b, a];
}

/** The true line of the tray, as long as the shadow of its plate: a turned tray shows more than the two points at its widest. */
function trueTray(one: VariedFilm): Pair | null {
  const pair = truePair(
    one,
    one.view === 'lateral' ? ['plateau-anterior', 'plateau-posterior'] : ['tray-medial-edge', 'tray-lateral-edge'],
  );
  const { inPlace } = one.standing.leg;
  if (!pair || !inPlace) return pair;
  const plate = movedMesh(movedMesh(inPlace.tray.plate, inPlace.trayAt), one.standing.pose.tibia);
  const points = shadow(one.scene.beam, plate);
  const d = direction(pair[0], pair[1]);
  const reach = (towards: Pixel, from: Pixel): Pixel => {
    const end = extreme(points, towards);
    const t = (end.x - from.x) * towards.x + (end.y - from.y) * towards.y;
    return { x: from.x + t * towards.x, y: from.y + t * towards.y };
  };
  return [reach({ x: -d.x, y: -d.y }, pair[0]), reach(d, pair[1])];
}

const slope = ([a, b]: Pair): number => (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI;

/** Distances of two found points from their true ones, across and along the true line, px. */
function off(found: Pair, truth: Pair): { across: number; along: number; deg: number } {
  const turn = (slope(truth) * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const each = found.map((p, i) => {
    const [dx, dy] = [p.x - (truth[i]?.x ?? 0), p.y - (truth[i]?.y ?? 0)];
    return { along: Math.abs(dx * c + dy * s), across: Math.abs(dy * c - dx * s) };
  });
  return {
    across: Math.max(...each.map((e) => e.across)),
    along: Math.max(...each.map((e) => e.along)),
    deg: Math.abs(slope(found) - slope(truth)),
  };
}

/** Silhouettes on one film, found without a hint; on the film of a native knee any confident answer is wrong. */
export function judgeComponents(one: VariedFilm, tallies: Tallies): void {
  const found = findComponents(one.film, { view: one.view === 'lateral' ? 'lateral' : 'ap' });
  if (!one.standing.leg.inPlace) {
    if (one.scene.legs.some((s) => s.leg.inPlace)) return;
    const sure = found.ok && (found.value.femoral.confident || found.value.tray.confident);
    tallies.add('film without components', found.ok ? { px: 0, mm: 0, confident: sure, wrong: true } : null);
    return;
  }
  const both = one.scene.legs.every((s) => s.leg.inPlace);
  // Where both knees are replaced the film holds two right answers: the one that was given is judged.
  const [first, ...others] = one.scene.legs.filter((s) => s.leg.inPlace);
  if (both && others.length > 0 && first && found.ok) {
    const here = found.value.tray.line[0];
    const near = one.scene.legs.map((s) => {
      const pair = truePair({ ...one, standing: s }, ['tray-medial-edge', 'tray-lateral-edge']);
      return { s, d: pair ? Math.hypot(pair[0].x - here.x, pair[0].y - here.y) : Number.POSITIVE_INFINITY };
    });
    near.sort((a, b) => a.d - b.d);
    judgeFound({ ...one, standing: near[0]?.s ?? one.standing }, found.value, tallies);
    return;
  }
  judgeFound(one, found.ok ? found.value : null, tallies);
}

function judgeFound(one: VariedFilm, found: ComponentsProposal | null, tallies: Tallies): void {
  const { mmPerPx } = one;
  const score = (what: string, sure: boolean, { px, wrong }: { px: number; wrong: boolean }) =>
    tallies.add(what, { px, mm: px * mmPerPx, confident: sure, wrong });
  if (one.view !== 'lateral') {
    const tangent = truePair(one, ['medial-condyle-distal', 'lateral-condyle-distal']);
    const edges = truePair(one, ['femoral-component-medial-edge', 'femoral-component-lateral-edge']);
    if (tangent) {
      if (!found?.femoral.distalTangent) tallies.add('distal tangent, across', null);
      else {
        const e = off(found.femoral.distalTangent, tangent);
        score('distal tangent, across', found.femoral.confident, {
          px: e.across,
          wrong: e.deg > ALLOWED.lineDeg || e.across * mmPerPx > ALLOWED.acrossMm,
        });
      }
    }
    if (edges) {
      if (!found) tallies.add('femoral component, edges', null);
      else {
        const e = off(found.femoral.edges, edges);
        score('femoral component, edges', found.femoral.edgesTrust.confident, {
          px: e.along,
          wrong: e.along * mmPerPx > ALLOWED.endMm,
        });
      }
    }
  }
  const tray = trueTray(one);
  if (!tray) return;
  const name = one.view === 'lateral' ? 'tray from the side' : 'tray from in front';
  if (!found) {
    tallies.add(`${name}, line`, null);
    tallies.add(`${name}, ends`, null);
    return;
  }
  const e = off(found.tray.line, tray);
  const limit = one.view === 'lateral' ? ALLOWED.sideDeg : ALLOWED.lineDeg;
  const wrong = e.deg > limit || Math.max(e.along, e.across) * mmPerPx > ALLOWED.endMm;
  score(`${name}, line`, found.tray.confident, { px: e.across, wrong });
  score(`${name}, ends`, found.tray.confident, { px: e.along, wrong });
}
