import { hasMillimetres } from '@gapline/core/calibration/calibration.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { addLevel, moveWall, removeLevel, traceOf } from '../case/canal-edits.ts';
import { addDefect, defectWords, moveCorner, removeCorner } from '../case/defect-edits.ts';
import { type Desk, useDesk, useDeskState, usePlanning, useSession } from '../case/desk.tsx';
import { spanTool } from '../compare/span-tool.ts';
import { constructTool } from '../construct/construct-tool.ts';
import type { MarkPoint } from '../gestures/pointer.ts';
import { offersTool } from '../marking/offers-tool.ts';
import { pointAtTool } from '../marking/point-at-tool.ts';
import { repeatTool } from '../marking/repeat-tool.ts';
import { newId } from '../work-up/slot.ts';
import { type DrawEvent, type Drawing, drawStep } from './draw-outline.ts';
import { LEAST_CORNERS } from './outline-shape.ts';
import type { FilmTool, ToolHandle, ToolInHand } from './tool-in-hand.ts';
import { nextWall, type Tracing, takeBack, traceStep, type Wall, wallsAsked } from './trace-canal.ts';
import type { Place } from './viewport.ts';

/** A line drawn by hand is thinned out to this share of the hand's reach. */
const JITTER = 0.12;

/** The tool that is in hand over this film, or none. */
export function useFilmTool(film: CaseFilm): FilmTool | null {
  const desk = useDesk();
  const inHand = useDeskState((s) => s.tool);
  const file = useSession((s) => s.shown);
  if (inHand?.film !== film.id) return null;
  const corners = (file.bone?.drawn ?? [])
    .filter((d) => d.film === film.id)
    .flatMap((d) =>
      d.outline.map((at, index) => ({
        key: `drawn|${d.id}`,
        index,
        at,
        label: `${defectWords(d)}, corner ${index + 1} of ${d.outline.length}`,
      })),
    );
  switch (inHand.is) {
    case 'draw':
      return drawTool(desk, inHand);
    case 'adjust':
      return adjustTool(desk, corners);
    case 'trace':
      return traceTool(desk, inHand, wallHandles(file, inHand));
    case 'span':
      return spanTool(desk, inHand, film);
    case 'construct':
      return constructTool(desk, inHand);
    case 'repeat':
      return repeatTool(desk, inHand, file);
    case 'point-at':
      return pointAtTool(desk, inHand, film);
    case 'offers':
      return offersTool(desk, inHand);
  }
}

const putDown = (desk: Desk): void => desk.state.setState({ tool: null, selected: null });
const nothing = (): void => undefined;

/** What changing a drawn corner means; drafts until the hand lets go. */
function adjustTool(desk: Desk, handles: readonly ToolHandle[]): FilmTool {
  const { session } = desk;
  const shown = () => session.store.getState().shown;
  const words = (id: string): string => {
    const defect = shown().bone?.drawn?.find((d) => d.id === id);
    return defect ? defectWords(defect) : 'Defect';
  };
  return {
    handles,
    places: false,
    draws: false,
    line: 'Drag a corner, or Tab to it and use the arrow keys. Delete takes it away. Escape: done.',
    press: nothing,
    stroke: nothing,
    move: (point, to) => {
      const id = idOf(point);
      session.draft([moveCorner(shown(), id, { corner: point.index, to })], `${words(id)}: outline changed`);
    },
    remove: (point) => {
      const id = idOf(point);
      session.commit([removeCorner(shown(), id, point.index)], `${words(id)}: one corner taken away`);
      desk.state.setState({ selected: null });
    },
    close: nothing,
    back: nothing,
    leave: () => putDown(desk),
  };
}

const idOf = (point: MarkPoint): string => point.key.slice('drawn|'.length);

/** Corners of outlines that are finished are not in the way while another one is drawn beside them. */
function drawTool(desk: Desk, tool: Extract<ToolInHand, { is: 'draw' }>): FilmTool {
  const { session, state } = desk;
  const { drawing } = tool;
  const open: readonly ToolHandle[] =
    drawing.lineFrom === null
      ? drawing.points.map((at, index) => ({
          key: 'open',
          index,
          at,
          label: `Point ${index + 1} of the outline`,
          // A press on the first point closes the outline.
          fixed: index === 0 && drawing.points.length >= LEAST_CORNERS,
        }))
      : [];
  const act = (event: DrawEvent, reach: number): void => {
    const inHand = state.getState().tool;
    if (inHand?.is !== 'draw') return;
    const turn = drawStep(inHand.drawing, event, { reach, jitter: reach * JITTER });
    if (!turn.closed) {
      state.setState({ tool: { ...inHand, drawing: turn.drawing, said: turn.said } });
      return;
    }
    const { film, surface, compartment } = inHand;
    const defect = { id: newId(), film, surface, compartment, outline: turn.closed };
    session.commit([addDefect(session.store.getState().shown, defect)], `Defect drawn: ${defectWords(defect)}`);
    state.setState({ tool: { is: 'adjust', film }, selected: null });
  };
  const change = (points: readonly Place[]): void =>
    state.setState({ tool: { ...tool, drawing: { points, lineFrom: null }, said: null } });
  return {
    handles: open,
    places: true,
    draws: true,
    line: `${defectWords(tool)}: ${tool.said ?? drawLine(drawing)}`,
    press: (at, reach) => act({ kind: 'press', at }, reach),
    stroke: (phase, at, reach) => act({ kind: 'stroke', phase, at }, reach),
    move: (point, to) => change(drawing.points.with(point.index, to)),
    remove: (point) => {
      change(drawing.points.filter((_, i) => i !== point.index));
      state.setState({ selected: null });
    },
    close: () => act({ kind: 'close' }, 0),
    back: () => act({ kind: 'back' }, 0),
    leave: () => (drawing.points.length > 0 ? change([]) : putDown(desk)),
  };
}

const drawLine = ({ points, lineFrom }: Drawing): string =>
  lineFrom === 0
    ? 'lift the hand where it began'
    : points.length === 0
      ? 'draw round it in one sweep, or press point by point (Enter for a crosshair)'
      : points.length < LEAST_CORNERS
        ? 'go on round it'
        : 'press the first point, or C, to close it';

const WALL_WORDS: Readonly<Record<Wall, string>> = {
  innerA: 'inner wall, one side',
  innerB: 'inner wall, other side',
  outerA: 'outer wall, one side',
  outerB: 'outer wall, other side',
};
const WALLS: readonly Wall[] = ['innerA', 'innerB', 'outerA', 'outerB'];

function wallHandles(
  file: Parameters<typeof traceOf>[0],
  { film, tracing }: Extract<ToolInHand, { is: 'trace' }>,
): readonly ToolHandle[] {
  const { bone } = tracing;
  const levels = traceOf(file, { bone, film })?.levels ?? [];
  return levels.flatMap((level, i) =>
    WALLS.flatMap((wall, w) => {
      const at = level[wall];
      const label = `${bone === 'femur' ? 'Femoral' : 'Tibial'} canal, level ${i + 1}, ${WALL_WORDS[wall]}`;
      return at ? [{ key: 'wall', index: i * WALLS.length + w, at, label }] : [];
    }),
  );
}

function traceTool(desk: Desk, tool: Extract<ToolInHand, { is: 'trace' }>, walls: readonly ToolHandle[]): FilmTool {
  const { session, state } = desk;
  const { film, tracing } = tool;
  const name = { bone: tracing.bone, film };
  const bone = tracing.bone === 'femur' ? 'Femoral canal' : 'Tibial canal';
  const shown = () => session.store.getState().shown;
  const keep = (next: Tracing): void => state.setState({ tool: { ...tool, tracing: next } });
  const commit = (edit: Edit, what: string): void => session.commit([edit], `${bone}: ${what}`);
  const levels = traceOf(shown(), name)?.levels.length ?? 0;
  return {
    handles: [
      ...walls,
      ...tracing.presses.map((at, index) => ({ key: 'press', index, at, label: 'Wall of the level under way' })),
    ],
    places: true,
    draws: false,
    line: `${bone}, level ${levels + 1}: press the ${WALL_WORDS[nextWall(tracing)]}${
      tracing.presses.length === 0 && levels === 0 ? ', nearest the joint first' : ''
    } (${tracing.presses.length} of ${wallsAsked(tracing).length})`,
    press: (at) => {
      const inHand = state.getState().tool;
      const turn = traceStep(inHand?.is === 'trace' ? inHand.tracing : tracing, at);
      keep(turn.tracing);
      if (turn.level) commit(addLevel(shown(), name, turn.level), 'one level traced');
    },
    stroke: nothing,
    move: (point, to) => {
      if (point.key === 'press') return keep({ ...tracing, presses: tracing.presses.with(point.index, to) });
      const wall = WALLS[point.index % WALLS.length] ?? 'innerA';
      const level = Math.floor(point.index / WALLS.length);
      session.draft([moveWall(shown(), name, { level, wall, to })], `${bone}: wall moved`);
    },
    remove: (point) => {
      state.setState({ selected: null });
      if (point.key === 'press') return keep(takeBack(tracing));
      commit(removeLevel(shown(), name, Math.floor(point.index / WALLS.length)), 'one level taken away');
    },
    close: nothing,
    back: () => {
      if (tracing.presses.length > 0) return keep(takeBack(tracing));
      if (levels > 0) commit(removeLevel(shown(), name, levels - 1), 'last level taken away');
    },
    leave: () => (tracing.presses.length > 0 ? keep({ ...tracing, presses: [] }) : putDown(desk)),
  };
}

/** Millimetres a film pixel measures down the film; null where the film has no scale. */
export function useMmPerRow(film: string): number | null {
  return usePlanning((s) => {
    const calibration = s.plan.films.find((f) => f.id === film)?.calibration;
    return calibration && hasMillimetres(calibration) ? calibration.mmPerPx.y : null;
  });
}
