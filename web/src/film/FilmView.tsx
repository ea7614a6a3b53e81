import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { describeEdit } from '@gapline/core/plan/describe-edit.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import type { DrawnLayer } from '@gapline/core/plan/plan.ts';
import {
  type KeyboardEvent,
  type PointerEvent,
  useCallback,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { markKey, useDesk, useDeskState, usePlanning, useSession } from '../case/desk.tsx';
import { drawingsWith, layersOn } from '../case/drawn-layers.ts';
import { isMarked, LEAST_OUTLINE, markOn, moveEdit, placeEdit, removeEdit } from '../case/marking.ts';
import { IDLE, step } from '../gestures/hand.ts';
import { type ArrowsMove, type KeyWish, keyWish } from '../gestures/keys.ts';
import { type MarkPoint, type Pointer, pointUnder, REACH, type Wish } from '../gestures/pointer.ts';
import { FilmCanvas } from './FilmCanvas.tsx';
import { FilmFacts, isShownMirrored } from './FilmFacts.tsx';
import { FilmTools } from './FilmTools.tsx';
import { FoundOnFilm } from './FoundOnFilm.tsx';
import { dragWindow, type GreyWindow } from './grey.ts';
import { Loupe } from './Loupe.tsx';
import { MarkHandles } from './MarkHandles.tsx';
import { PlanLayers } from './PlanLayers.tsx';
import { ToolHandles } from './ToolHandles.tsx';
import type { FilmTool } from './tool-in-hand.ts';
import { useFilm } from './use-film.ts';
import { useFilmTool } from './use-film-tool.ts';
import {
  type FilmSize,
  fit,
  type Place,
  pan,
  resized,
  show,
  toFilm,
  toScreen,
  type Viewport,
  zoom,
} from './viewport.ts';

/** A row of nudges becomes one change when the keys have rested this long. */
const REST_MS = 500;
const WHEEL_STEP = 0.0016;

interface Props {
  readonly film: CaseFilm;
  /** What is in sight at the start: the whole film, or the construct that is planned (without one, the knee as marked). */
  readonly startsAt?: 'whole' | 'construct';
}

/** One film with everything that is drawn on it, and every gesture on it. */
export function FilmView({ film, startsAt = 'whole' }: Props) {
  const loaded = useFilm(film.sha256);
  const area = useRef<HTMLDivElement>(null);
  const [looked, setView] = useState<Viewport | null>(null);
  const [grey, setGrey] = useState<GreyWindow | null>(null);
  const size = useFilmSize(film);
  const mirrored = isShownMirrored(film);

  const { session, planning } = useDesk();
  const begin = useCallback(
    (whole: Viewport): Viewport => {
      if (startsAt === 'whole') return whole;
      const marks = session.store.getState().shown.marks.filter((m) => m.film === film.id);
      const drawn = planning.store.getState().plan.drawings.find((d) => d.film === film.id)?.layers ?? [];
      const parts = drawn.filter((l) => l.belongs === 'plan' && PARTS.includes(l.kind)).flatMap((l) => l.points);
      return around(parts, { view: whole, size, rim: 0.06 }) ?? kneeIn(marks, whole, size) ?? whole;
    },
    [session, planning, startsAt, film.id, size],
  );

  useLayoutEffect(() => {
    const element = area.current;
    if (!element) return;
    const observer = new ResizeObserver(() => {
      const box = { width: element.clientWidth, height: element.clientHeight };
      if (box.width > 0 && box.height > 0) setView((v) => (v ? resized(v, box) : begin(fit(box, size, mirrored))));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [size, mirrored, begin]);

  // One and the same object while nothing of it changes: the film is painted anew for another one.
  const view = useMemo(() => looked && { ...looked, mirrored, aspect: size.aspect }, [looked, mirrored, size.aspect]);
  const about = loaded.film?.about;
  useEffect(() => {
    if (about) setGrey((g) => g ?? { ...about.window, inverted: false });
  }, [about]);

  return (
    <div className="film" ref={area}>
      {view && loaded.film && grey ? (
        <OnFilm
          film={film}
          size={size}
          levels={loaded.film.levels}
          range={loaded.film.about.most - loaded.film.about.least}
          startGrey={{ ...loaded.film.about.window, inverted: false }}
          view={view}
          setView={setView}
          grey={grey}
          setGrey={setGrey}
        />
      ) : (
        <p className="film-waiting" role="status">
          {loaded.fault ?? 'Film is being loaded …'}
        </p>
      )}
    </div>
  );
}

function useFilmSize(film: CaseFilm): FilmSize {
  const calibration = usePlanning((s) => s.plan.films.find((f) => f.id === film.id)?.calibration);
  const { rows, columns, pixelAspect } = film.scaleFacts;
  const aspect =
    calibration && calibration.source !== 'none'
      ? calibration.mmPerPx.y / calibration.mmPerPx.x
      : (calibration?.pixelAspect ?? pixelAspect ?? 1);
  // A scale that moves with a mark leaves the shape of the pixels as it is, but for rounding.
  const rounded = Math.round(aspect * 1e6) / 1e6;
  return useMemo(() => ({ rows, columns, aspect: rounded }), [rows, columns, rounded]);
}

interface OnFilmProps extends Props {
  readonly size: FilmSize;
  readonly levels: Parameters<typeof FilmCanvas>[0]['levels'];
  readonly range: number;
  readonly startGrey: GreyWindow;
  readonly view: Viewport;
  readonly setView: (next: Viewport) => void;
  readonly grey: GreyWindow;
  readonly setGrey: (next: GreyWindow) => void;
}

function OnFilm({ film, size, levels, range, startGrey, view, setView, grey, setGrey }: OnFilmProps) {
  const { session, state } = useDesk();
  const file = useSession((s) => s.shown);
  const marks = useMemo(() => file.marks.filter((m) => m.film === film.id), [file.marks, film.id]);
  const desk = useDeskState((s) => s);
  const planned = usePlanning((s) => s.plan.films.find((f) => f.id === film.id));
  const layers = useLayers(film.id);
  const tool = useFilmTool(film);
  const placing = !tool && desk.placing?.film === film.id ? desk.placing : null;
  const places = placing !== null || (tool?.places ?? false);
  const [windowing, setWindowing] = useState(false);
  const [loupe, setLoupe] = useState<Place | null>(null);
  const [crosshair, setCrosshair] = useState<Place | null>(null);
  const [moving, setMoving] = useState(false);
  const hand = useRef(IDLE);
  const space = useRef(false);
  const rest = useRef(0);
  const surface = useRef<HTMLButtonElement>(null);
  // Gestures and keys come faster than renders: they read what is newest here.
  const now = useRef({ view, grey, marks, tool });
  now.current = { view, grey, marks, tool };

  const look = (next: Viewport): void => {
    now.current.view = next;
    setView(next);
    setMoving(true);
    window.clearTimeout(rest.current);
    rest.current = window.setTimeout(() => setMoving(false), 160);
  };
  const regrey = (next: GreyWindow): void => {
    now.current.grey = next;
    setGrey(next);
  };

  const find = (point: MarkPoint): Mark | undefined =>
    session.store.getState().shown.marks.find((m) => m.film === film.id && markKey(m) === point.key);
  const placeOf = (point: MarkPoint): Place | null => {
    const at = now.current.tool ? handleOf(now.current.tool, point)?.at : find(point)?.points[point.index];
    return at ? toScreen(now.current.view, at) : null;
  };
  const select = (point: MarkPoint | null): void => state.setState({ selected: point });
  const commit = (edit: Edit): void => session.commit([edit], describeEdit(edit));

  const movePoint = (point: MarkPoint, to: Place, last: boolean): void => {
    if (now.current.tool) {
      now.current.tool.move(point, to);
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

  const placeAt = (at: Place): void => {
    if (now.current.tool) now.current.tool.press(at, REACH.pen / now.current.view.scale);
    if (!placing) return;
    const { shown } = session.store.getState();
    const edit = placeEdit(shown, placing, at);
    commit(edit);
    const { outline } = landmark(placing.landmark);
    const index = edit.kind === 'put-mark' ? edit.mark.points.length - 1 : 0;
    state.setState({ selected: { key: markKey(placing), index }, ...(outline ? {} : { placing: null }) });
  };

  const carryOut = (wish: Wish) => {
    const { view: v, grey: g } = now.current;
    switch (wish.kind) {
      case 'pan':
        return look(pan(v, wish, size));
      case 'zoom':
        return look(zoom(v, wish.factor, wish.at, size));
      case 'window':
        return regrey(dragWindow(g, wish, range));
      case 'select':
        return select(wish.point);
      case 'move-point':
        return movePoint(wish.point, toFilm(v, wish.to), wish.last);
      case 'let-go':
        return session.dropDraft();
      case 'place':
        return placeAt(toFilm(v, wish.at));
      case 'stroke':
        return now.current.tool?.stroke(wish.phase, toFilm(v, wish.at), REACH.mouse / v.scale);
      case 'loupe':
        return setLoupe(wish.at);
    }
  };

  const onPointer = (type: Pointer['type'], event: PointerEvent<HTMLButtonElement>): void => {
    const box = event.currentTarget.getBoundingClientRect();
    const at = { x: event.clientX - box.left, y: event.clientY - box.top };
    const device = event.pointerType === 'touch' ? 'touch' : event.pointerType === 'pen' ? 'pen' : 'mouse';
    if (type === 'down') {
      event.currentTarget.setPointerCapture(event.pointerId);
      surface.current?.focus({ preventScroll: true });
    }
    const points =
      type !== 'down'
        ? []
        : tool
          ? tool.handles.filter((h) => !h.fixed).map((h) => ({ ...h, at: toScreen(now.current.view, h.at) }))
          : !desk.layers.marks
            ? []
            : marks.flatMap((m) =>
                m.points.map((p, index) => ({ key: markKey(m), index, at: toScreen(now.current.view, p) })),
              );
    const under = pointUnder(points, at, REACH[device]);
    const next = step(
      hand.current,
      {
        type,
        id: event.pointerId,
        at,
        device,
        button: (['main', 'middle', 'second'] as const)[event.button] ?? 'none',
        hand: space.current,
        on: under ? { key: under.key, index: under.index } : null,
      },
      { placing: places, drawing: tool?.draws ?? false, windowing, placeOf },
    );
    hand.current = next.hand;
    next.wishes.forEach(carryOut);
    if (type === 'move' && event.pointerType === 'mouse' && hand.current.is === 'idle')
      setLoupe(places && !tool?.draws ? at : null);
  };

  // React listens to the wheel passively; the page must not scroll while the film zooms.
  useEffect(() => {
    const element = surface.current;
    if (!element) return;
    const onWheel = (event: WheelEvent): void => {
      event.preventDefault();
      const box = element.getBoundingClientRect();
      const at = { x: event.clientX - box.left, y: event.clientY - box.top };
      const factor = Math.exp(-event.deltaY * (event.deltaMode === 1 ? 16 : 1) * WHEEL_STEP);
      carryOut({ kind: 'zoom', factor, at });
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  });

  const nudge = useNudge(session, find);
  const nudgeHandle = useNudgeHandle(session);
  const held = tool && desk.selected ? handleOf(tool, desk.selected) : null;
  const arrows: ArrowsMove = held
    ? 'point'
    : places
      ? 'crosshair'
      : !tool && desk.selected && find(desk.selected)
        ? 'point'
        : 'film';
  const onKeyWish = (wish: KeyWish) => {
    const { view: v, grey: g } = now.current;
    const middle = { x: v.width / 2, y: v.height / 2 };
    switch (wish.kind) {
      case 'pan':
      case 'window':
        return carryOut(wish);
      case 'zoom':
        return carryOut({ ...wish, at: crosshair ?? middle });
      case 'nudge': {
        const by = { x: wish.dx * (v.mirrored ? -1 : 1), y: wish.dy };
        return tool && held ? nudgeHandle(tool, held, by) : nudge(desk.selected, by);
      }
      case 'crosshair': {
        const at = crosshair ?? middle;
        const next = {
          x: Math.min(Math.max(at.x + wish.dx, 0), v.width),
          y: Math.min(Math.max(at.y + wish.dy, 0), v.height),
        };
        setCrosshair(next);
        return setLoupe(next);
      }
      case 'close':
        return tool?.close();
      case 'place':
        if (!places) return;
        return crosshair ? placeAt(toFilm(v, crosshair)) : setCrosshair(middle);
      case 'remove': {
        if (tool) return held ? tool.remove(held) : tool.back();
        const mark = desk.selected && find(desk.selected);
        if (mark && desk.selected) commit(removeEdit(mark, desk.selected.index));
        return select(null);
      }
      case 'leave':
        setLoupe(null);
        setCrosshair(null);
        session.dropDraft();
        if (tool) return tool.leave();
        return state.setState({ placing: null, selected: null });
      case 'fit':
        return look(fit(v, size, v.mirrored));
      case 'reset':
        regrey(startGrey);
        return look(fit(v, size, v.mirrored));
      case 'invert':
        return regrey({ ...g, inverted: !g.inverted });
      case 'window-mode':
        return setWindowing(!windowing);
    }
  };
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === ' ') {
      space.current = true;
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

  useEffect(() => {
    if (places) return;
    setCrosshair(null);
    setLoupe(null);
  }, [places]);
  useShowSelected({ selected: desk.selected, find, view: now.current.view, size, look });

  const knee = kneeIn(marks, view, size);
  const pointedAt = useMemo(() => new Set<string>(desk.pointedAt?.landmarks ?? []), [desk.pointedAt]);
  const onSelect = useCallback((point: MarkPoint) => state.setState({ selected: point }), [state]);
  return (
    <section
      className={`film-surface${places ? ' is-placing' : ''}${windowing ? ' is-windowing' : ''}`}
      aria-label={`Film: ${film.file}`}
      data-film={film.id}
      onKeyDown={onKey}
      onKeyUp={(event) => {
        if (event.key === ' ') space.current = false;
      }}
    >
      {/* The picture itself takes the focus, so that the keys work on it as on the marks that lie over it. */}
      <button
        ref={surface}
        type="button"
        className="film-touch"
        aria-roledescription="film"
        aria-label={`Picture of ${film.file}. Arrow keys move it, plus and minus zoom, I inverts, W sets the grey window.`}
        onFocus={() => tool && select(null)}
        onPointerDown={(e) => onPointer('down', e)}
        onPointerMove={(e) => onPointer('move', e)}
        onPointerUp={(e) => onPointer('up', e)}
        onPointerCancel={(e) => onPointer('cancel', e)}
        onPointerLeave={() => hand.current.is === 'idle' && !crosshair && setLoupe(null)}
        onContextMenu={(e) => e.preventDefault()}
      >
        <FilmCanvas levels={levels} view={view} grey={grey} moving={moving} />
      </button>
      <svg className="film-overlay" width={view.width} height={view.height} aria-hidden="true">
        <PlanLayers layers={layers} view={view} standsOut={desk.pointedAt?.layer ?? null} names={desk.layers.names} />
        <FoundOnFilm film={film} view={view} />
        {crosshair && (
          <path
            className="crosshair"
            d={`M${crosshair.x - 24} ${crosshair.y}h18m12 0h18M${crosshair.x} ${crosshair.y - 24}v18m0 12v18`}
          />
        )}
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
      <FilmFacts film={film} planned={planned} view={view} />
      <FilmTools
        windowing={windowing}
        inverted={grey.inverted}
        onWish={onKeyWish}
        onKnee={knee && (() => look(knee))}
      />
      {placing && (
        <PlacingLine
          placing={placing}
          marked={isMarked(file, placing)}
          points={markOn(file, placing)?.points.length ?? 0}
        />
      )}
      {tool && (
        <p className="placing-line" role="status">
          {tool.line}
        </p>
      )}
      {loupe && <Loupe levels={levels} view={view} grey={grey} at={loupe} />}
    </section>
  );
}

/** What is drawn on this film, with the construct that was chosen. */
function useLayers(film: string): readonly DrawnLayer[] {
  const planning = usePlanning((s) => s);
  const construct = useDeskState((s) => s.construct);
  const onTrial = useDeskState((s) => s.onTrial);
  const on = useDeskState((s) => s.layers);
  const drawings = useMemo(() => drawingsWith(planning, { construct, onTrial }), [planning, construct, onTrial]);
  return useMemo(() => layersOn(drawings, film, on), [drawings, film, on]);
}

/** Moves a selected point by film pixels; nudges in a row become one change once the keys rest. */
function useNudge(session: ReturnType<typeof useDesk>['session'], find: (point: MarkPoint) => Mark | undefined) {
  const timer = useRef(0);
  useEffect(
    () => () => {
      window.clearTimeout(timer.current);
      session.commitDraft();
    },
    [session],
  );
  return (point: MarkPoint | null, by: Place): void => {
    const mark = point && find(point);
    const at = point && mark?.points[point.index];
    if (!point || !mark || !at) return;
    const edit = moveEdit(mark, point.index, { x: at.x + by.x, y: at.y + by.y });
    session.draft([edit], `${landmark(mark.landmark).label} moved, ${mark.side}`);
    window.clearTimeout(timer.current);
    timer.current = window.setTimeout(() => session.commitDraft(), REST_MS);
  };
}

const handleOf = (tool: FilmTool, point: MarkPoint) =>
  tool.handles.find((h) => h.key === point.key && h.index === point.index) ?? null;

/** Moves a tool's handle by film pixels; nudges in a row become one change once the keys rest. */
function useNudgeHandle(session: ReturnType<typeof useDesk>['session']) {
  const timer = useRef(0);
  useEffect(() => () => window.clearTimeout(timer.current), []);
  return (tool: FilmTool, handle: MarkPoint & { readonly at: Place }, by: Place): void => {
    tool.move(handle, { x: handle.at.x + by.x, y: handle.at.y + by.y });
    window.clearTimeout(timer.current);
    timer.current = window.setTimeout(() => session.commitDraft(), REST_MS);
  };
}

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

/** The part of the film where the marks of the knee crowd; null while there are too few. */
function kneeIn(marks: readonly Mark[], view: Viewport, size: FilmSize): Viewport | null {
  const knee = marks.filter((m) => NEAR_THE_KNEE.some((word) => m.landmark.includes(word))).flatMap((m) => m.points);
  return around(knee, { view, size, rim: 0.5 });
}

/** The part of the film round some points, with a rim in parts of their greater extent; null for fewer than two. */
function around(
  points: readonly Place[],
  { view, size, rim }: { readonly view: Viewport; readonly size: FilmSize; readonly rim: number },
): Viewport | null {
  if (points.length < 2) return null;
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y);
  const margin = Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)) * rim;
  const from = { x: Math.min(...xs) - margin, y: Math.min(...ys) - margin };
  const to = { x: Math.max(...xs) + margin, y: Math.max(...ys) + margin };
  return show(view, { from, to }, size);
}

/** What makes a construct on the film. */
const PARTS: readonly DrawnLayer['kind'][] = ['component', 'augment', 'stem'];
const NEAR_THE_KNEE = ['condyle', 'tray', 'plateau', 'femoral-component', 'tibial-bone', 'femoral-bone', 'epicondyle'];

function PlacingLine(props: {
  readonly placing: { readonly landmark: Mark['landmark']; readonly side: Mark['side'] };
  readonly marked: boolean;
  readonly points: number;
}) {
  const { label, outline } = landmark(props.placing.landmark);
  return (
    <p className="placing-line" role="status">
      <strong>{label}</strong>, {props.placing.side}:{' '}
      {outline
        ? `press along the outline, ${LEAST_OUTLINE} points or more (${props.points} so far)`
        : 'press where it lies, or Enter for a crosshair'}
    </p>
  );
}
