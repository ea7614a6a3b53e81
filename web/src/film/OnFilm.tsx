import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { describeEdit } from '@gapline/core/plan/describe-edit.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import type { DrawnLayer } from '@gapline/core/plan/plan.ts';
import { type KeyboardEvent, useCallback, useEffect, useMemo, useRef } from 'react';
import { markKey, useDesk, useDeskState, usePlanning, useSession } from '../case/desk.tsx';
import { drawingsWith, layersOn } from '../case/drawn-layers.ts';
import { isMarked, markOn, moveEdit, placeEdit, removeEdit } from '../case/marking.ts';
import { HandReadout } from '../construct/HandReadout.tsx';
import { type ArrowsMove, type KeyWish, keyWish } from '../gestures/keys.ts';
import { type MarkPoint, REACH, type Wish } from '../gestures/pointer.ts';
import { edgeNear } from '../marking/edge-near.ts';
import { MarkingOverlay } from '../marking/MarkingOverlay.tsx';
import { useLeadView } from '../marking/use-lead-view.ts';
import { Crosshair } from './Crosshair.tsx';
import { FilmCanvas } from './FilmCanvas.tsx';
import { FilmFacts } from './FilmFacts.tsx';
import { FilmTools } from './FilmTools.tsx';
import { FoundOnFilm } from './FoundOnFilm.tsx';
import { kneeIn } from './in-sight.ts';
import { Loupe } from './Loupe.tsx';
import { MarkHandles } from './MarkHandles.tsx';
import { PlacingLine } from './PlacingLine.tsx';
import { PlanLayers } from './PlanLayers.tsx';
import type { Pane } from './panes.ts';
import type { Level } from './pyramid.ts';
import { ToolHandles } from './ToolHandles.tsx';
import type { FilmTool } from './tool-in-hand.ts';
import { useCrosshair } from './use-crosshair.ts';
import { useFilmTool } from './use-film-tool.ts';
import { useHand } from './use-hand.ts';
import { type Looked, useLooking } from './use-looking.ts';
import { useNudge, useNudgeHandle } from './use-nudge.ts';
import { alongArrow, type FilmSize, type Place, pan, toFilm, toScreen, type Viewport } from './viewport.ts';

/** How far a press goes to the nearest edge, screen pixels. */
const SNAP = 9;

interface Props extends Looked {
  readonly pane: Pane;
  readonly levels: readonly Level[];
  /** Why this film does not move with those it should be linked with. */
  readonly apart: string | null;
}

/** One film that is there, with everything that is drawn on it, and every gesture on it. */
export function OnFilm({ pane, levels, apart, ...looked }: Props) {
  const { film, otherKnee } = pane;
  const { view, grey, size } = looked;
  const { session, state } = useDesk();
  const file = useSession((s) => s.shown);
  const all = useMemo(() => file.marks.filter((m) => m.film === film.id), [file.marks, film.id]);
  // The other knee is there to be looked at: nothing is marked on a film shown mirrored.
  const marks = otherKnee ? NONE : all;
  const points = useMemo(() => marks.flatMap((m) => m.points), [marks]);
  const desk = useDeskState((s) => s);
  const planned = usePlanning((s) => s.plan.films.find((f) => f.id === film.id));
  const layers = useLayers(pane);
  const inHand = useFilmTool(film);
  const tool = otherKnee ? null : inHand;
  const placing = !tool && !otherKnee && desk.placing?.film === film.id ? desk.placing : null;
  const places = placing !== null || (tool?.places ?? false);
  const crosshair = useCrosshair(places);
  const surface = useRef<HTMLButtonElement>(null);
  const looking = useLooking(looked);
  const { now, look } = looking;
  const newestTool = useRef(tool);
  newestTool.current = tool;

  const find = (point: MarkPoint): Mark | undefined =>
    otherKnee
      ? undefined
      : session.store.getState().shown.marks.find((m) => m.film === film.id && markKey(m) === point.key);
  const placeOf = (point: MarkPoint): Place | null => {
    const held = newestTool.current;
    const at = held ? handleOf(held, point)?.at : find(point)?.points[point.index];
    return at ? toScreen(now.current.view, at) : null;
  };
  const select = (point: MarkPoint | null): void => state.setState({ selected: point });
  const commit = (edit: Edit): void => session.commit([edit], describeEdit(edit));

  const movePoint = (point: MarkPoint, to: Place, last: boolean): void => {
    if (newestTool.current) {
      newestTool.current.move(point, to);
      if (last) session.commitDraft();
      return;
    }
    const mark = find(point);
    if (!mark) return;
    const edit = moveEdit(mark, point.index, to);
    const label = `${landmark(mark.landmark).label} moved, ${mark.side}`;
    session.draft([edit], label);
    if (last) session.commitDraft();
  };

  const placeAt = (pressed: Place): void => {
    newestTool.current?.press(pressed, REACH.pen / now.current.view.scale);
    if (!placing) return;
    const { shown } = session.store.getState();
    const edge = desk.snaps ? edgeNear(levels[0], pressed, SNAP / now.current.view.scale) : null;
    const edit = placeEdit(shown, placing, edge ?? pressed, edge ? 'proposed-and-accepted' : 'by-hand');
    commit(edit);
    const { outline } = landmark(placing.landmark);
    const index = edit.kind === 'put-mark' ? edit.mark.points.length - 1 : 0;
    state.setState({ selected: { key: markKey(placing), index }, ...(outline ? {} : { placing: null }) });
  };

  const carryOut = (wish: Wish) => {
    if (looking.carryOut(wish)) return undefined;
    const v = now.current.view;
    switch (wish.kind) {
      case 'select':
        return select(wish.point);
      case 'move-point':
        return movePoint(wish.point, toFilm(v, wish.to), wish.last);
      case 'let-go':
        return session.dropDraft();
      case 'place':
        return placeAt(toFilm(v, wish.at));
      case 'stroke':
        return newestTool.current?.stroke(wish.phase, toFilm(v, wish.at), REACH.mouse / v.scale);
      case 'loupe':
        return crosshair.setLoupe(wish.at);
    }
  };

  const hand = useHand({
    surface,
    setting: {
      placing: places,
      drawing: tool?.draws ?? false,
      windowing: looking.windowing,
      placesOn: (point) => tool?.placesOn?.(point) ?? (placing !== null && point.key !== markKey(placing)),
      placeOf,
    },
    points: (device) => {
      const onScreen = <T extends { readonly at: Place }>(point: T): T => ({
        ...point,
        at: toScreen(now.current.view, point.at),
      });
      if (tool) return tool.handles.filter((h) => !h.fixed).map(onScreen);
      if (!desk.layers.marks) return [];
      // A finger reaches far: while it places a landmark it must not take hold of another one that lies near.
      const free = placing && device !== 'mouse' ? marks.filter((m) => markKey(m) === markKey(placing)) : marks;
      return free.flatMap((m) => m.points.map((at, index) => onScreen({ key: markKey(m), index, at })));
    },
    grab: (at) => tool?.grab?.(toFilm(now.current.view, at)) ?? null,
    carryOut,
    onHover: (at) => crosshair.hover(at, places && !tool?.draws),
  });

  const nudge = useNudge(session, find);
  const nudgeHandle = useNudgeHandle(session);
  const held = tool && desk.selected ? handleOf(tool, desk.selected) : null;
  const arrows: ArrowsMove =
    held || tool?.nudge
      ? 'point'
      : places
        ? 'crosshair'
        : !tool && desk.selected && find(desk.selected)
          ? 'point'
          : 'film';
  const onKeyWish = (wish: KeyWish) => {
    const v = now.current.view;
    const middle = { x: v.width / 2, y: v.height / 2 };
    if (looking.carryOut(wish, crosshair.at ?? middle)) return undefined;
    switch (wish.kind) {
      case 'nudge': {
        const by = alongArrow(v, wish);
        if (tool?.nudge) return tool.nudge(by);
        return tool && held ? nudgeHandle(tool, held, by) : nudge(desk.selected, by);
      }
      case 'crosshair':
        return crosshair.move(wish, v);
      case 'close':
        if (tool) return tool.close();
        return placing && isMarked(file, placing) ? state.setState({ placing: null }) : undefined;
      case 'place':
        if (tool?.accept) return tool.accept();
        if (!places) return undefined;
        return crosshair.at ? placeAt(toFilm(v, crosshair.at)) : crosshair.show(middle);
      case 'remove': {
        if (tool) return held ? tool.remove(held) : tool.back();
        const mark = desk.selected && find(desk.selected);
        if (mark && desk.selected) commit(removeEdit(mark, desk.selected.index));
        return select(null);
      }
      case 'leave':
        crosshair.leave();
        session.dropDraft();
        if (tool) return tool.leave();
        return state.setState({ placing: null, selected: null, guided: false });
    }
  };
  const onKey = (event: KeyboardEvent): void => {
    if (hand.onSpace(event, true)) return;
    if (tool?.key?.(event.key)) {
      event.preventDefault();
      return;
    }
    const wish = keyWish(
      { key: event.key, shift: event.shiftKey, alt: event.altKey, ctrl: event.ctrlKey || event.metaKey },
      arrows,
    );
    if (!wish) return;
    event.preventDefault();
    onKeyWish(wish);
  };

  useLeadView({ film, tool, placing, view, size, look });
  useShowSelected({ selected: desk.selected, find, view: now.current.view, size, look });

  const knee = kneeIn(
    all.filter((m) => m.side === pane.side),
    view,
    size,
  );
  const pointedAt = useMemo(() => new Set<string>(desk.pointedAt?.landmarks ?? []), [desk.pointedAt]);
  const onSelect = useCallback((point: MarkPoint) => state.setState({ selected: point }), [state]);
  const what = otherKnee ? `${film.file}, other knee, shown mirrored` : film.file;
  return (
    <section
      className={`film-surface${places ? ' is-placing' : ''}${looking.windowing ? ' is-windowing' : ''}`}
      aria-label={`Film: ${what}`}
      data-film={film.id}
      data-pane={pane.key}
      onKeyDown={onKey}
      onKeyUp={(event) => hand.onSpace(event, false)}
    >
      {/* The picture itself takes the focus, so that the keys work on it as on the marks that lie over it. */}
      <button
        ref={surface}
        type="button"
        className="film-touch"
        aria-roledescription="film"
        aria-label={`Picture of ${what}. Arrow keys move it, plus and minus zoom, T turns it, I inverts, W sets the grey window.`}
        onFocus={() => tool && select(null)}
        {...hand.surface}
      >
        <FilmCanvas levels={levels} view={view} grey={grey} moving={looking.moving} />
      </button>
      <svg className="film-overlay" width={view.width} height={view.height} aria-hidden="true">
        {!tool?.blind && (
          <>
            <PlanLayers
              layers={layers}
              view={view}
              standsOut={desk.pointedAt?.layer ?? null}
              names={desk.layers.names}
              marks={points}
            />
            <FoundOnFilm film={film} view={view} />
          </>
        )}
        <MarkingOverlay film={film.id} tool={tool} view={view} />
        <Crosshair at={crosshair.at} />
      </svg>
      {tool ? (
        <div className="film-marks">
          <ToolHandles handles={tool.handles} view={view} selected={desk.selected} onSelect={onSelect} />
        </div>
      ) : (
        desk.layers.marks && (
          <div className="film-marks">
            <MarkHandles marks={marks} view={view} selected={desk.selected} pointedAt={pointedAt} onSelect={onSelect} />
          </div>
        )
      )}
      <FilmFacts pane={pane} planned={planned} view={view} apart={apart} />
      <FilmTools
        windowing={looking.windowing}
        inverted={grey.inverted}
        turnDeg={view.turnDeg}
        onWish={onKeyWish}
        onKnee={knee && (() => look(knee))}
      />
      {placing && <PlacingLine placing={placing} points={markOn(file, placing)?.points.length ?? 0} />}
      {tool && (
        <p className="placing-line" role="status">
          {tool.line}
          {tool.keys && <span className="placing-keys"> {tool.keys}</span>}
        </p>
      )}
      <HandReadout film={film.id} />
      {crosshair.loupe && !tool?.noLoupe && <Loupe levels={levels} view={view} grey={grey} at={crosshair.loupe} />}
    </section>
  );
}

const NONE: readonly Mark[] = [];

/** What is drawn on this film, with the construct that was chosen. */
function useLayers({ film, side, otherKnee }: Pane): readonly DrawnLayer[] {
  const planning = usePlanning((s) => s);
  const construct = useDeskState((s) => s.construct);
  const onTrial = useDeskState((s) => s.onTrial);
  const on = useDeskState((s) => s.layers);
  const drawings = useMemo(() => drawingsWith(planning, { construct, onTrial }), [planning, construct, onTrial]);
  return useMemo(() => {
    const here = layersOn(drawings, film.id, on);
    return otherKnee ? here.filter((layer) => layer.side === side) : here;
  }, [drawings, film.id, on, otherKnee, side]);
}

const handleOf = (tool: FilmTool, point: MarkPoint) =>
  tool.handles.find((h) => h.key === point.key && h.index === point.index) ?? null;

/** A mark that is selected from a list or by Tab comes into sight. */
function useShowSelected(of: {
  selected: MarkPoint | null;
  find: (point: MarkPoint) => Mark | undefined;
  view: Viewport;
  size: FilmSize;
  look: (next: Viewport) => void;
}): void {
  const { selected, find, view, size, look } = of;
  const last = useRef<MarkPoint | null>(null);
  useEffect(() => {
    if (selected === last.current) return;
    last.current = selected;
    const point = selected && find(selected)?.points[selected.index];
    if (!point) return;
    const at = toScreen(view, point);
    const rim = 40;
    if (at.x > rim && at.y > rim && at.x < view.width - rim && at.y < view.height - rim) return;
    look(pan(view, { dx: view.width / 2 - at.x, dy: view.height / 2 - at.y }, size));
  });
}
