import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { point } from '@gapline/core/plane/point.ts';
import type { Desk } from '../case/desk.tsx';
import { loadFilm } from '../film/film-shelf.ts';
import type { FilmTool, ToolInHand } from '../film/tool-in-hand.ts';
import type { Place } from '../film/viewport.ts';
import { faultText } from '../parts/fault-text.ts';
import { lookOnFilm } from './look-on-film.ts';
import { offersOf } from './offers-of.ts';

export type PointingAt = Extract<ToolInHand, { is: 'point-at' }>;

/** One press inside the femoral head; the circle that fits its outline is offered. */
export function pointAtTool(desk: Desk, tool: PointingAt, film: CaseFilm): FilmTool {
  const nothing = (): void => undefined;
  return {
    handles: [],
    places: !tool.looking,
    draws: false,
    line: tool.looking ? 'The outline of the head is being looked for …' : (tool.said ?? 'Press once inside the head.'),
    press: (at) => void fitAt(desk, tool, { film, at }),
    stroke: nothing,
    move: nothing,
    remove: nothing,
    close: nothing,
    back: nothing,
    leave: () => desk.state.setState({ tool: null, selected: null }),
  };
}

async function fitAt(
  { state, session, planning }: Desk,
  tool: PointingAt,
  on: { film: CaseFilm; at: Place },
): Promise<void> {
  const { film, at } = on;
  const tell = (said: string): void => {
    if (state.getState().tool?.is === 'point-at') state.setState({ tool: { ...tool, looking: false, said } });
  };
  const spacing = film.scaleFacts.imagerPixelSpacing?.[1];
  const calibration = planning.store.getState().plan.films.find((f) => f.id === film.id)?.calibration;
  const mmPerPx = calibration && calibration.source !== 'none' ? calibration.mmPerPx.x : spacing;
  state.setState({ tool: { ...tool, looking: true } });
  try {
    const [level] = film.sha256 ? (await loadFilm(film.sha256)).levels : [];
    if (!level) return tell('The picture of this film is not on this machine.');
    const search = { near: point('film', at.x, at.y), ...(mmPerPx === undefined ? {} : { mmPerPx }) };
    const [answer] = await lookOnFilm(level, [{ is: 'head', search }], () => undefined);
    if (state.getState().tool?.is !== 'point-at') return;
    if (!answer?.ok) return tell(`${answer?.reason.message ?? 'No head was found.'} Press again, or Escape.`);
    const offers = offersOf(answer.found, { film, side: tool.side }, session.store.getState().shown);
    state.setState({ tool: { is: 'offers', film: film.id, offers, at: 0, moved: { x: 0, y: 0 } }, selected: null });
  } catch (reason) {
    tell(faultText(reason));
  }
}
