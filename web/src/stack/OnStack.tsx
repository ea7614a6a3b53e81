import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { describeEdit } from '@gapline/core/plan/describe-edit.ts';
import { type KeyboardEvent, useCallback, useMemo, useRef } from 'react';
import { markKey, useDesk, useDeskState, useSession } from '../case/desk.tsx';
import { isMarked, moveEdit, removeEdit } from '../case/marking.ts';
import { Crosshair } from '../film/Crosshair.tsx';
import { Loupe } from '../film/Loupe.tsx';
import { MarkHandles } from '../film/MarkHandles.tsx';
import { useCrosshair } from '../film/use-crosshair.ts';
import { type Looked, useLooking } from '../film/use-looking.ts';
import { useNudge } from '../film/use-nudge.ts';
import { alongArrow, type Place, svgTransform, toFilm, toScreen, type Viewport } from '../film/viewport.ts';
import type { ArrowsMove } from '../gestures/keys.ts';
import type { MarkPoint } from '../gestures/pointer.ts';
import { SliceCanvas } from './SliceCanvas.tsx';
import { SliceSlider } from './SliceSlider.tsx';
import { StackFacts } from './StackFacts.tsx';
import { StackTools } from './StackTools.tsx';
import { dragSlices, within } from './scroll.ts';
import { namedWindow } from './slice-windows.ts';
import { spannedLines } from './spanned-lines.ts';
import { placeOnSlice } from './stack-edits.ts';
import type { StackFilm } from './stack-film.ts';
import type { StackWish } from './stack-hand.ts';
import { type StackKeyWish, stackKeyWish } from './stack-keys.ts';
import type { LoadedStack } from './stack-shelf.ts';
import { useStackHand } from './use-stack-hand.ts';

interface Props extends Looked {
  readonly film: StackFilm;
  readonly stack: LoadedStack;
  readonly slice: number;
  readonly setSlice: (next: number) => void;
}

/** One slice of a stack with the marks that lie on it, and every gesture on it. */
export function OnStack({ film, stack, slice, setSlice, ...looked }: Props) {
  const { view, grey } = looked;
  const { session, state } = useDesk();
  const count = film.slices.each.length;
  const all = useMarksOn(film.id);
  const marks = useMemo(() => all.filter((m) => m.slice === slice), [all, slice]);
  const desk = useDeskState((s) => s);
  const placing = desk.placing?.film === film.id ? desk.placing : null;
  const values = stack.slice(slice);
  const crosshair = useCrosshair(placing !== null);
  const surface = useRef<HTMLButtonElement>(null);
  const looking = useLooking(looked);
  const { now } = looking;
  const rest = useRef(0);
  // Wheel and keys come faster than renders: they go on from the newest slice.
  const newest = useRef(slice);
  newest.current = slice;

  const go = (by: number): void => {
    newest.current = within(newest.current + by, count);
    if (by !== 0) setSlice(newest.current);
  };
  const find = (point: MarkPoint): Mark | undefined =>
    session.store.getState().shown.marks.find((m) => m.film === film.id && markKey(m) === point.key);
  const placeOf = (point: MarkPoint): Place | null => {
    const at = find(point)?.points[point.index];
    return at ? toScreen(now.current.view, at) : null;
  };
  const movePoint = (point: MarkPoint, to: Place, last: boolean): void => {
    const mark = find(point);
    if (!mark) return;
    session.draft([moveEdit(mark, point.index, to)], `${landmark(mark.landmark).label} moved, ${mark.side}`);
    if (last) session.commitDraft();
  };
  const placeAt = (at: Place): void => {
    // A slice that is not there yet cannot be marked on.
    if (!placing || !stack.slice(newest.current)) return;
    const edit = placeOnSlice(session.store.getState().shown, placing, { ...at, slice: newest.current });
    session.commit([edit], describeEdit(edit));
    const { outline } = landmark(placing.landmark);
    state.setState({
      selected: { key: markKey(placing), index: edit.mark.points.length - 1 },
      ...(outline ? {} : { placing: null }),
    });
  };
  const carryOut = (wish: StackWish) => {
    if (wish.kind === 'scroll') {
      const next = dragSlices(wish.dy, { rest: rest.current, height: view.height, count });
      rest.current = next.rest;
      return go(next.by);
    }
    if (looking.carryOut(wish)) return;
    const v = now.current.view;
    switch (wish.kind) {
      case 'select':
        return state.setState({ selected: wish.point });
      case 'move-point':
        return movePoint(wish.point, toFilm(v, wish.to), wish.last);
      case 'let-go':
        return session.dropDraft();
      case 'place':
        return placeAt(toFilm(v, wish.at));
      case 'loupe':
        return crosshair.setLoupe(wish.at);
    }
  };
  const hand = useStackHand({
    surface,
    setting: { placing: placing !== null, windowing: looking.windowing, placeOf },
    points: () =>
      desk.layers.marks
        ? marks.flatMap((m) =>
            m.points.map((p, index) => ({ key: markKey(m), index, at: toScreen(now.current.view, p) })),
          )
        : [],
    carryOut,
    go,
    onHover: (at) => crosshair.hover(at, placing !== null),
  });

  const nudge = useNudge(session, find);
  const held = desk.selected && marks.some((m) => markKey(m) === desk.selected?.key) ? desk.selected : null;
  const arrows: ArrowsMove = placing ? 'crosshair' : held ? 'point' : 'film';
  const onKeyWish = (wish: StackKeyWish) => {
    const v = now.current.view;
    const middle = { x: v.width / 2, y: v.height / 2 };
    if (wish.kind === 'slices') return go(wish.by);
    if (wish.kind === 'end') return go(wish.which === 'first' ? -count : count);
    if (wish.kind === 'named-window') return looked.setGrey(namedWindow(wish.name, stack.most()));
    if (looking.carryOut(wish, crosshair.at ?? middle)) return;
    switch (wish.kind) {
      case 'nudge':
        return nudge(held, alongArrow(v, wish));
      case 'crosshair':
        return crosshair.move(wish, v);
      case 'close':
        return placing && isMarked(session.store.getState().shown, placing)
          ? state.setState({ placing: null })
          : undefined;
      case 'place':
        if (!placing) return;
        return crosshair.at ? placeAt(toFilm(v, crosshair.at)) : crosshair.show(middle);
      case 'remove': {
        const mark = held && find(held);
        if (!mark || !held) return;
        const edit = removeEdit(mark, held.index);
        session.commit([edit], describeEdit(edit));
        return state.setState({ selected: null });
      }
      case 'leave':
        crosshair.leave();
        session.dropDraft();
        return state.setState({ placing: null, selected: null });
    }
  };
  const onKey = (event: KeyboardEvent): void => {
    if (hand.onSpace(event, true)) return;
    const wish = stackKeyWish(
      { key: event.key, shift: event.shiftKey, alt: event.altKey, ctrl: event.ctrlKey || event.metaKey },
      arrows,
    );
    if (!wish) return;
    event.preventDefault();
    onKeyWish(wish);
  };

  const pointedAt = useMemo(() => new Set<string>(desk.pointedAt?.landmarks ?? []), [desk.pointedAt]);
  const onSelect = useCallback((point: MarkPoint) => state.setState({ selected: point }), [state]);
  const levels = useMemo(
    () => (values ? [{ width: looked.size.columns, height: looked.size.rows, values }] : []),
    [values, looked.size],
  );
  return (
    <section
      className={`film-surface stack-surface${placing ? ' is-placing' : ''}${looking.windowing ? ' is-windowing' : ''}`}
      aria-label={`CT: ${film.file}`}
      data-film={film.id}
      onKeyDown={onKey}
      onKeyUp={(event) => hand.onSpace(event, false)}
    >
      <button
        ref={surface}
        type="button"
        className="film-touch"
        aria-roledescription="CT stack"
        aria-label={`Slices of ${film.file}. Page up and page down go by one slice, with Shift by ten; Home and End to the lowest and the highest; 1 bone, 2 metal, 3 soft tissue; plus and minus zoom.`}
        {...hand.surface}
      />
      <div className="stack-picture">
        {values ? (
          <SliceCanvas
            values={values}
            columns={looked.size.columns}
            rows={looked.size.rows}
            slice={slice}
            view={view}
            grey={grey}
          />
        ) : (
          <p className="film-waiting" role="status">
            {stack.fault() ?? `Slice ${slice + 1} is being loaded …`}
          </p>
        )}
      </div>
      {desk.layers.marks && (
        <>
          <Spanned film={film} marks={all} slice={slice} view={view} />
          <div className="film-marks stack-marks">
            <MarkHandles marks={marks} view={view} selected={desk.selected} pointedAt={pointedAt} onSelect={onSelect} />
          </div>
        </>
      )}
      <svg className="film-overlay" width={view.width} height={view.height} aria-hidden="true">
        <Crosshair at={crosshair.at} />
      </svg>
      {crosshair.loupe && values && <Loupe levels={levels} view={view} grey={grey} at={crosshair.loupe} />}
      <StackFacts film={film} view={view} slice={slice} />
      <StackTools grey={grey} most={stack.most()} windowing={looking.windowing} onWish={onKeyWish} />
      <SliceSlider count={count} slice={slice} marks={all} onSlice={(next) => go(next - newest.current)} />
      {placing && (
        <p className="placing-line" role="status">
          {landmark(placing.landmark).label}, {placing.side}: press it on its slice
        </p>
      )}
    </section>
  );
}

function useMarksOn(film: string): readonly Mark[] {
  const marks = useSession((s) => s.shown.marks);
  return useMemo(() => marks.filter((m) => m.film === film), [marks, film]);
}

/** The lines that rotation is measured between, laid over the slice; dashed where an end lies on another one. */
function Spanned(props: {
  readonly film: StackFilm;
  readonly marks: readonly Mark[];
  readonly slice: number;
  readonly view: Viewport;
}) {
  const { film, marks, slice, view } = props;
  const [y, x] = film.scaleFacts.pixelSpacing ?? [1, 1];
  const sides = [...new Set(marks.map((m) => m.side))];
  const lines = sides.flatMap((side) =>
    spannedLines(
      marks.filter((m) => m.side === side),
      { stack: film.slices, mmPerPx: { x, y } },
      slice,
    ).map((line) => ({ ...line, side })),
  );
  return (
    <svg className="film-overlay" width={view.width} height={view.height} aria-hidden="true">
      <g className="drawn of-present" transform={svgTransform(view)}>
        {lines.map(({ id, side, from, to, here }) => {
          const d = `M${from.x} ${from.y}L${to.x} ${to.y}`;
          return (
            <g key={`${side} ${id}`} className={`spanned${here ? '' : ' is-elsewhere'}`} data-line={id}>
              <path className="drawn-shade" d={d} />
              <path className="drawn-line" d={d} />
            </g>
          );
        })}
      </g>
    </svg>
  );
}
