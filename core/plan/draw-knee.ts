import type { JointLineEstimate } from '../joint-line/estimate-types.ts';
import { type LimbFrame, toFilm } from '../landmarks/film-to-limb.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { Z95 } from '../measure/quantity.ts';
import { midpoint, type Point, plus, point } from '../plane/point.ts';
import { type BoneOnFilm, spot, usableOn } from './bones-on-film.ts';
import type { DrawnLayer } from './plan.ts';

/** A layer from points of the limb's frame. */
export const layer = <F extends LimbFrame>(
  film: LimbFilm<F>,
  head: Pick<DrawnLayer, 'kind' | 'id' | 'belongs'> & { readonly label?: string; readonly closed?: boolean },
  points: readonly Point<F>[],
): DrawnLayer => ({
  ...head,
  closed: head.closed ?? false,
  side: film.side,
  points: points.map((p) => {
    const { x, y } = toFilm(film.toLimb, p);
    return { x, y };
  }),
});

const at = <F extends LimbFrame>(film: LimbFilm<F>, id: LandmarkId): Point<F> | undefined => film.placed.get(id)?.at;

const middleOf = <F extends LimbFrame>(film: LimbFilm<F>, a: LandmarkId, b: LandmarkId): Point<F> | undefined => {
  const [p, q] = [at(film, a), at(film, b)];
  return p && q ? midpoint(p, q as Point<F>) : undefined;
};

/** Lines of an AP film as it shows the knee now: head, axes, joint lines. Drawn even without a scale. */
export function presentOnAp(film: LimbFilm<'coronal'>, bones: readonly (BoneOnFilm<'coronal'> | null)[]): DrawnLayer[] {
  const [femur, tibia] = bones;
  const hip = usableOn(film, ['femoral-head']) ? at(film, 'femoral-head') : undefined;
  const top = hip ?? middleOf(film, 'femoral-shaft-proximal-medial', 'femoral-shaft-proximal-lateral');
  const ankle = middleOf(film, 'talus-medial', 'talus-lateral');
  const foot = ankle ?? middleOf(film, 'tibial-shaft-distal-medial', 'tibial-shaft-distal-lateral');
  const layers: DrawnLayer[] = [];
  const axis = (id: string, label: string, [from, to]: [Point<'coronal'>, Point<'coronal'>]) =>
    layers.push(layer(film, { kind: 'axis', id, label, belongs: 'present' }, [from, to]));
  if (femur && top) axis('femoral-axis', 'Femoral axis', [femur.axis.through, onAxis(femur, top)]);
  if (tibia && foot) axis('tibial-axis', 'Tibial axis', [tibia.axis.through, onAxis(tibia, foot)]);
  const radius = film.placed.get('femoral-head')?.radius;
  if (hip && radius !== undefined) {
    const head = {
      kind: 'circle',
      id: 'femoral-head',
      label: 'Femoral head',
      belongs: 'present',
      closed: true,
    } as const;
    layers.push(layer(film, head, circle(hip, radius)));
  }
  layers.push(...tangent(film, 'femoral-tangent', ['medial-condyle-distal', 'lateral-condyle-distal']));
  layers.push(...tangent(film, 'tray-line', ['tray-medial-edge', 'tray-lateral-edge']));
  return layers;
}

/** Lines of a lateral film as it shows the knee now: axes of the shafts, tray. */
export function presentOnLateral(
  film: LimbFilm<'sagittal'>,
  bones: readonly (BoneOnFilm<'sagittal'> | null)[],
): DrawnLayer[] {
  const ends = ['femoral-sagittal-proximal-anterior', 'tibial-sagittal-distal-anterior'] as const;
  const axes = bones.flatMap((bone, i) => {
    const end = at(film, ends[i] ?? ends[0]);
    if (!bone || !end) return [];
    const id = i === 0 ? 'femoral-cortex' : 'tibial-axis';
    const label = i === 0 ? 'Anterior cortex of the femur' : 'Tibial axis';
    return [layer(film, { kind: 'axis', id, label, belongs: 'present' }, [onAxis(bone, bone.zero), onAxis(bone, end)])];
  });
  return [...axes, ...tangent(film, 'tray-line', ['plateau-posterior', 'plateau-anterior'])];
}

/** Half the length of the drawn joint line, mm. */
const HALF_LINE_MM = 52;

/** The target joint line and its 95 % band on one bone of an AP film. */
export function targetLine(bone: BoneOnFilm<'coronal'>, estimate: JointLineEstimate): DrawnLayer[] {
  const { heightMm: h, sdMm } = estimate;
  const reach = Z95 * sdMm;
  const edge = (up: number) => [spot(bone, -HALF_LINE_MM, up), spot(bone, HALF_LINE_MM, up)] as const;
  const [a, b] = edge(h + reach);
  const [c, d] = edge(h - reach);
  const band = {
    kind: 'joint-line-band',
    id: 'target-band',
    label: `± ${reach.toFixed(1)} mm (95 %)`,
    belongs: 'plan',
  } as const;
  return [
    layer(bone.film, { ...band, closed: true }, [a, b, d, c]),
    layer(bone.film, { kind: 'joint-line', id: 'target-line', label: 'Target joint line', belongs: 'plan' }, [
      ...edge(h),
    ]),
  ];
}

/** Drawn beyond the two marks on either side, as a share of their distance. */
const BEYOND = 0.15;

function tangent<F extends LimbFrame>(
  film: LimbFilm<F>,
  id: string,
  [a, b]: readonly [LandmarkId, LandmarkId],
): DrawnLayer[] {
  const [p, q] = [at(film, a), at(film, b)];
  if (!p || !q || !usableOn(film, [a, b])) return [];
  const v = point(p.frame, q.x - p.x, q.y - p.y) as Point<F>;
  return [
    layer(film, { kind: 'tangent', id, belongs: 'present' }, [plus(p, v, -BEYOND), plus(q as Point<F>, v, BEYOND)]),
  ];
}

/** Foot of a point on a bone's axis, so that an axis is drawn straight. */
function onAxis<F extends LimbFrame>(bone: BoneOnFilm<F>, p: Point<F>): Point<F> {
  const { through, along } = bone.axis;
  const t = (p.x - through.x) * along.x + (p.y - through.y) * along.y;
  return plus(through, along as Point<F>, t);
}

const CIRCLE_CORNERS = 48;

const circle = <F extends LimbFrame>(centre: Point<F>, radius: number): Point<F>[] =>
  Array.from({ length: CIRCLE_CORNERS }, (_, i) => {
    const turn = (2 * Math.PI * i) / CIRCLE_CORNERS;
    return point(centre.frame, centre.x + radius * Math.cos(turn), centre.y + radius * Math.sin(turn)) as Point<F>;
  });
