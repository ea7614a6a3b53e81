import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import type { Place } from './viewport.ts';

export type AnchorId = 'joint-line' | 'tray' | 'epicondyles' | 'as-they-lie';

export interface Anchor {
  readonly id: AnchorId;
  readonly label: string;
  /** Landmarks whose middle it is; of several sets the first that is marked on the film. */
  readonly of: readonly (readonly LandmarkId[])[];
}

/** What linked films can be held together by. The middle of two marks: the same height on every view. */
export const ANCHORS: readonly Anchor[] = [
  {
    id: 'joint-line',
    label: 'Joint line',
    of: [
      ['medial-condyle-distal', 'lateral-condyle-distal'],
      ['femoral-component-distal-anterior', 'femoral-component-distal-posterior'],
    ],
  },
  {
    id: 'tray',
    label: 'Tray or plateau',
    of: [
      ['tray-medial-edge', 'tray-lateral-edge'],
      ['medial-plateau', 'lateral-plateau'],
      ['plateau-anterior', 'plateau-posterior'],
    ],
  },
  { id: 'epicondyles', label: 'Epicondyles', of: [['medial-epicondyle', 'lateral-epicondyle']] },
  { id: 'as-they-lie', label: 'As they lie now', of: [] },
];

/** Where the anchor stands on a film, film pixels; null where its landmarks are not marked on that side. */
export function anchorOn(id: AnchorId, marks: readonly Mark[], on: { film: string; side: Side }): Place | null {
  const pointOf = (landmark: LandmarkId): Place | undefined =>
    marks.find((m) => m.landmark === landmark && m.film === on.film && m.side === on.side)?.points[0];
  for (const set of ANCHORS.find((a) => a.id === id)?.of ?? []) {
    const points = set.flatMap((landmark) => pointOf(landmark) ?? []);
    if (points.length < set.length) continue;
    return {
      x: points.reduce((sum, p) => sum + p.x, 0) / points.length,
      y: points.reduce((sum, p) => sum + p.y, 0) / points.length,
    };
  }
  return null;
}

/** The side that is looked at on a film: on one of both legs that of the case. */
export const sideOn = (film: CaseFilm, caseSide: Side): Side => (film.side === 'both' ? caseSide : film.side);
