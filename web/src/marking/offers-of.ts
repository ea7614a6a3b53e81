import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import type { BallProposal } from '@gapline/film/proposals/find-balls.ts';
import type { ComponentsProposal } from '@gapline/film/proposals/find-components.ts';
import type { HeadProposal } from '@gapline/film/proposals/fit-head.ts';
import type { Trust } from '@gapline/film/proposals/proposal.ts';
import type { CanalProposal } from '@gapline/film/proposals/trace-canal.ts';
import { isMarked } from '../case/marking.ts';
import type { Place } from '../film/viewport.ts';
import type { Offer, OfferedShape } from './offer.ts';
import type { Found } from './search.ts';

interface To {
  readonly film: CaseFilm;
  readonly side: Side;
}

/** What was found, as offers: one a thing that can be taken by itself, and only what is not marked yet. */
export function offersOf(found: Found, to: To, file: CaseFile): readonly Offer[] {
  switch (found.is) {
    case 'ball':
      return found.found.slice(0, 1).map((ball) => circleOffer(ball, to, 'calibration-ball'));
    case 'head':
      return [circleOffer(found.found, to, 'femoral-head')];
    case 'components':
      return componentOffers(found.found, to).filter(
        ({ gives }) =>
          gives.is !== 'marks' ||
          !gives.marks.every((m) => isMarked(file, { landmark: m.landmark, side: m.side, film: to.film.id })),
      );
    case 'canal':
      return [canalOffer(found.bone, found.found)];
  }
}

const trusted = ({ confidence, confident, restsOn }: Trust) => ({
  confidence,
  confident,
  restsOn: restsOn.map((g) => g.says),
});

/** So many points stand for a circle: as many as a careful hand places. */
const ON_CIRCLE = 8;

export const circlePoints = (centre: Place, radius: number, many: number): readonly Place[] =>
  Array.from({ length: many }, (_, i) => {
    const angle = (2 * Math.PI * i) / many;
    return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
  });

function circleOffer(
  circle: BallProposal | HeadProposal,
  { side }: To,
  id: 'calibration-ball' | 'femoral-head',
): Offer {
  const { centre, radiusPx } = circle;
  return {
    id,
    label: id === 'femoral-head' ? 'Femoral head' : 'Calibration ball',
    shapes: [{ points: circlePoints(centre, radiusPx, 48), closed: true }],
    gives: { is: 'marks', marks: [{ landmark: id, side, points: circlePoints(centre, radiusPx, ON_CIRCLE) }] },
    ...trusted(circle),
  };
}

type Pair = readonly [LandmarkId, LandmarkId];

function componentOffers({ femoral, tray }: ComponentsProposal, to: To): readonly Offer[] {
  const line = (points: readonly Place[]): OfferedShape => ({ points, closed: false });
  const outline = (points: readonly Place[]): OfferedShape => ({ points, closed: true });
  const pair = (of: {
    id: string;
    label: string;
    ids: Pair;
    at: readonly [Place, Place];
    trust: Trust;
    shape: OfferedShape;
  }) => {
    const marks = asMarks(of.ids, of.at, to);
    if (!marks) return [];
    const shapes = [of.shape, line(of.at)];
    return [{ id: of.id, label: of.label, shapes, gives: { is: 'marks', marks }, ...trusted(of.trust) } as const];
  };
  if (to.film.view === 'lateral') {
    const ids: Pair = ['plateau-anterior', 'plateau-posterior'];
    const posterior = posteriorMost(femoral.edges, to);
    return [
      ...pair({
        id: 'tray-side',
        label: 'Tray from the side, both corners',
        ids,
        at: tray.line,
        trust: tray,
        shape: outline(tray.outline),
      }),
      ...(posterior
        ? [
            {
              id: 'posterior',
              label: 'Posterior condyle, most posterior point',
              shapes: [outline(femoral.outline), { points: [posterior], closed: true }],
              gives: { is: 'marks', marks: [{ landmark: 'posterior-condyle', side: to.side, points: [posterior] }] },
              ...trusted(femoral),
            } as const,
          ]
        : []),
    ];
  }
  const { distalTangent } = femoral;
  return [
    ...pair({
      id: 'femoral-edges',
      label: 'Femoral component, both edges',
      ids: ['femoral-component-medial-edge', 'femoral-component-lateral-edge'],
      at: femoral.edges,
      trust: femoral,
      shape: outline(femoral.outline),
    }),
    ...(distalTangent
      ? pair({
          id: 'distal-tangent',
          label: 'Distal tangent, both condyles',
          ids: ['medial-condyle-distal', 'lateral-condyle-distal'],
          at: distalTangent,
          trust: femoral,
          shape: outline(femoral.outline),
        })
      : []),
    ...pair({
      id: 'tray-line',
      label: 'Tray, both ends of its upper face',
      ids: ['tray-medial-edge', 'tray-lateral-edge'],
      at: tray.line,
      trust: tray,
      shape: outline(tray.outline),
    }),
  ];
}

/**
 * Two points, left then right on the film, as the marks of a pair, medial (or anterior) first. Null where it is not known which
 * way the columns run: then nobody can tell which is which.
 */
export function asMarks(ids: Pair, [left, right]: readonly [Place, Place], { film, side }: To) {
  const first = firstIsRight(film, side);
  if (first === null) return null;
  const [a, b] = first ? [right, left] : [left, right];
  return [
    { landmark: ids[0], side, points: [a] },
    { landmark: ids[1], side, points: [b] },
  ];
}

/** Whether medial (on a lateral film anterior) lies to the right on the film. */
function firstIsRight({ view, columnsTowards }: CaseFilm, side: Side): boolean | null {
  if (view === 'lateral') return columnsTowards === 'anterior' ? true : columnsTowards === 'posterior' ? false : null;
  if (columnsTowards !== 'patient-left' && columnsTowards !== 'patient-right') return null;
  return columnsTowards !== `patient-${side}`;
}

function posteriorMost([left, right]: readonly [Place, Place], { film, side }: To): Place | null {
  const anteriorIsRight = firstIsRight(film, side);
  return anteriorIsRight === null ? null : anteriorIsRight ? left : right;
}

function canalOffer(bone: 'femur' | 'tibia', canal: CanalProposal): Offer {
  const levels = canal.levels.map((l) => l.level);
  const wall = (pick: keyof (typeof levels)[number]): OfferedShape => ({
    points: levels.map((l) => l[pick]),
    closed: false,
  });
  return {
    id: `canal-${bone}`,
    label: `${bone === 'femur' ? 'Femoral' : 'Tibial'} canal, ${levels.length} levels`,
    shapes: [wall('outerA'), wall('innerA'), wall('innerB'), wall('outerB')],
    gives: { is: 'canal', bone, levels },
    ...trusted(canal),
  };
}
