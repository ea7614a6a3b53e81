import type { SolvedConstruct } from '@gapline/core/gaps/construct.ts';
import type { PartsOfConstruct } from '@gapline/core/gaps/parts-of.ts';
import type { PinId } from '@gapline/core/gaps/pinned/pinned.ts';
import { type ComponentOnFilm, onFilm, originOf } from '@gapline/core/plan/components-on-film.ts';
import type { DrawnLayer } from '@gapline/core/plan/plan.ts';
import type { ToolHandle } from '../film/tool-in-hand.ts';
import type { Place } from '../film/viewport.ts';
import type { Grip } from './hold.ts';

/** What each grip fixes; the first is what the brackets step. */
export const PINS_OF: Readonly<Record<Grip, readonly PinId[]>> = {
  femur: ['femurSize', 'femurProximalMm', 'femurAnteriorMm'],
  tray: ['traySize', 'trayMm'],
  slope: ['slopeDeg'],
  insert: ['insertMm'],
  'femoral-stem': ['femoralStem'],
  'tibial-stem': ['tibialStem'],
};

export const GRIP_WORDS: Readonly<Record<Grip, string>> = {
  femur: 'Femoral component',
  tray: 'Tray',
  slope: 'Slope of the tray',
  insert: 'Insert',
  'femoral-stem': 'Femoral stem',
  'tibial-stem': 'Tibial stem',
};

export const isGrip = (key: string): key is Grip => key in PINS_OF;

export interface OnOneFilm {
  readonly components: readonly ComponentOnFilm[];
  readonly solved: SolvedConstruct;
  readonly parts: PartsOfConstruct;
  readonly layers: readonly DrawnLayer[];
}

/** Where the upper face of the tray and the bearing surface stand, mm proximal of U. */
export const facesOf = ({ parts }: Pick<OnOneFilm, 'parts'>) => ({
  faceMm: parts.tray.thicknessMm,
  bearingMm: parts.tray.thicknessMm + parts.insert.heightMm,
});

/** The grips on one film: surfaces, the front of the tray on a lateral film, tips of stems. */
export function gripsOn(film: OnOneFilm): readonly ToolHandle[] {
  const { components, solved, parts } = film;
  const found: ToolHandle[] = [];
  const put = (grip: Grip, at: Place) => found.push({ key: grip, index: 0, at, label: GRIP_WORDS[grip] });
  for (const on of components) {
    const [across, up] = originOf(on, solved.construct);
    if (on.bone === 'femur') {
      put('femur', onFilm(on, on.view === 'sagittal' ? across + parts.femur.apMm / 2 : 0, up));
      const tip = tipOf(film, `${solved.construct.femoralStem}:femur`, on);
      if (tip) put('femoral-stem', tip);
      continue;
    }
    const { faceMm, bearingMm } = facesOf(film);
    put('tray', onFilm(on, 0, up));
    put(
      'insert',
      onFilm(on, on.view === 'coronal' ? parts.tray.widthMm * 0.3 : -parts.tray.apMm * 0.3, up + bearingMm),
    );
    if (on.view === 'sagittal') {
      const rad = (solved.construct.slopeDeg * Math.PI) / 180;
      const half = parts.tray.apMm / 2;
      put('slope', onFilm(on, half * Math.cos(rad), up + faceMm + half * Math.sin(rad)));
    }
    const tip = tipOf(film, `${solved.construct.tibialStem}:tibia`, on);
    if (tip) put('tibial-stem', tip);
  }
  return found;
}

/** The end of a stem that lies farther from the joint. */
function tipOf({ layers }: OnOneFilm, id: string, { zero, up }: ComponentOnFilm): Place | null {
  const points = layers.filter((l) => l.id === id && l.kind === 'stem').flatMap((l) => l.points);
  if (points.length === 0) return null;
  const along = (p: Place): number => (p.x - zero.x) * up.x + (p.y - zero.y) * up.y;
  const far = points.toSorted((a, b) => Math.abs(along(b)) - Math.abs(along(a))).slice(0, 2);
  return {
    x: far.reduce((sum, p) => sum + p.x, 0) / far.length,
    y: far.reduce((sum, p) => sum + p.y, 0) / far.length,
  };
}

/** The grip of the component whose outline lies under a place: insert before tray before femur. */
export function gripUnder({ layers, solved }: OnOneFilm, at: Place): Grip | null {
  const { insert, tray, femur, femoralStem, tibialStem } = solved.construct;
  const parts: readonly (readonly [Grip, string])[] = [
    ['insert', insert],
    ['tray', tray],
    ['femur', femur],
    ['femoral-stem', `${femoralStem}:femur`],
    ['tibial-stem', `${tibialStem}:tibia`],
  ];
  const hit = (id: string) =>
    layers.some((l) => l.belongs === 'plan' && (l.id === id || l.id.startsWith(`${id}:`)) && isInside(l.points, at));
  return parts.find(([, id]) => hit(id))?.[0] ?? null;
}

/** Whether a place lies within a closed line: a ray from it crosses the line an odd number of times. */
function isInside(points: readonly Place[], { x, y }: Place): boolean {
  let inside = false;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length] ?? a;
    if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside;
  });
  return inside;
}
