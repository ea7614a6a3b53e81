import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useEffect, useRef } from 'react';
import { type DeskState, useDesk, useDeskState } from '../case/desk.tsx';
import type { FilmTool } from '../film/tool-in-hand.ts';
import { type FilmSize, type Place, show, toScreen, type Viewport } from '../film/viewport.ts';
import { expectedOnFilm } from './expected-on-film.ts';

interface Led {
  readonly film: CaseFilm;
  readonly tool: FilmTool | null;
  readonly placing: DeskState['placing'];
  readonly view: Viewport;
  readonly size: FilmSize;
  readonly look: (next: Viewport) => void;
}

/** How much about an expected place is shown, mm, and how little of the area counts as its middle. */
const ROUND_MM = 70;
const MIDDLE = 0.3;
/** Smallest scale at which a point can be placed well, screen pixels for a film pixel. */
const FINE = 0.35;
/** Rim about an offer, in parts of its extent. */
const RIM = 0.7;

/**
 * Leads the eye: what is offered comes large into sight, and while marking is guided the part of the film where the next
 * landmark is expected, unless it is in sight already. It moves once for each; after that the view is the hand's.
 */
export function useLeadView({ film, tool, placing, view, size, look }: Led): void {
  const { session } = useDesk();
  const guided = useDeskState((s) => s.guided);
  const led = useRef('');
  const inHand = useDeskState((s) => s.tool);
  const offer = inHand?.is === 'offers' && inHand.film === film.id ? `offer ${inHand.offers[inHand.at]?.id}` : '';
  const asked = guided && placing?.film === film.id ? `place ${placing.landmark} ${placing.side}` : '';
  const towards = offer || asked;
  useEffect(() => {
    if (led.current === towards) return;
    led.current = towards;
    if (offer) {
      const part = partOf(tool?.offered?.flatMap((s) => s.points) ?? []);
      if (part) look(show(view, part, size));
    } else if (asked && placing) {
      const expected = expectedOnFilm(session.store.getState().shown, film, placing);
      if (!expected || isInSight(view, expected.at)) return;
      const far = ROUND_MM * expected.pxPerMm;
      const { x, y } = within(expected.at, size);
      look(show(view, { from: { x: x - far, y: y - far }, to: { x: x + far, y: y + far } }, size));
    }
  });
}

const within = ({ x, y }: Place, { columns, rows }: FilmSize): Place => ({
  x: Math.min(Math.max(x, 0), columns - 1),
  y: Math.min(Math.max(y, 0), rows - 1),
});

function isInSight(view: Viewport, place: Place): boolean {
  const at = toScreen(view, place);
  const inside = (value: number, whole: number): boolean => Math.abs(value / whole - 0.5) < MIDDLE;
  return view.scale >= FINE && inside(at.x, view.width) && inside(at.y, view.height);
}

function partOf(points: readonly Place[]): { readonly from: Place; readonly to: Place } | null {
  if (points.length === 0) return null;
  const [xs, ys] = [points.map((p) => p.x), points.map((p) => p.y)];
  const extent = Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys), 40);
  const rim = RIM * extent;
  return {
    from: { x: Math.min(...xs) - rim, y: Math.min(...ys) - rim },
    to: { x: Math.max(...xs) + rim, y: Math.max(...ys) + rim },
  };
}
