import { coronalFilm } from '@gapline/core/landmarks/limb-film.ts';
import { type InterfaceSpan, type SpanComponent, type SpanKind, trayZone } from '@gapline/core/limb/interface-span.ts';
import { calibrateFilms } from '@gapline/core/plan/calibrate-films.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import type { Desk } from '../case/desk.tsx';
import { onFilm } from '../case/marking.ts';
import type { FilmTool, ToolHandle } from '../film/tool-in-hand.ts';
import type { Place } from '../film/viewport.ts';
import { newId } from '../work-up/slot.ts';
import { addSpan, moveSpan, removeSpan } from './span-edits.ts';
import { KIND_WORDS, spanWords } from './span-words.ts';

/** A width across an interface in the making: plain data on the desk. */
export interface SpanInHand {
  readonly is: 'span';
  readonly film: string;
  readonly kind: SpanKind;
  readonly component: SpanComponent;
  /** Null = from where the mark lies under the tray. */
  readonly zone: number | null;
  readonly first: Place | null;
}

/** One more press: the second edge makes a span. Zone 1 where it cannot be told from the place. */
export function spanStep(
  hand: SpanInHand,
  at: Place,
  told: { readonly id: string; readonly zoneAt: (p: Place) => number | null },
): { readonly hand: SpanInHand; readonly span: InterfaceSpan | null } {
  const { first, film, kind, component } = hand;
  if (!first) return { hand: { ...hand, first: at }, span: null };
  const middle = { x: (first.x + at.x) / 2, y: (first.y + at.y) / 2 };
  const zone = hand.zone ?? told.zoneAt(middle) ?? 1;
  const span = { id: told.id, kind, component, zone, film, from: onFilm(first), to: onFilm(at) };
  return { hand: { ...hand, first: null }, span };
}

/** The zone under the tray at a place of an AP film. */
export function zoneOnFilm(file: CaseFile, film: CaseFilm): (at: Place) => number | null {
  const calibration = calibrateFilms({ ...file, films: [film] })[0]?.calibration;
  const seen = coronalFilm({ film, side: file.side, marks: file.marks, calibration });
  return (at) => (seen.ok ? trayZone(seen.value, at) : null);
}

const EDGES = ['from', 'to'] as const;

/** Two presses across an interface; what is there already can be moved and taken away. */
export function spanTool(desk: Desk, hand: SpanInHand, film: CaseFilm): FilmTool {
  const { session, state } = desk;
  const shown = () => session.store.getState().shown;
  const here = (shown().interfaceSpans ?? []).filter((s) => s.film === film.id && s.kind === hand.kind);
  const placed: readonly ToolHandle[] = here.flatMap((s) =>
    EDGES.map((edge, index) => ({
      key: `span|${s.id}`,
      index,
      at: s[edge],
      label: `${spanWords(s)}, edge ${index + 1}`,
    })),
  );
  const open: readonly ToolHandle[] = hand.first
    ? [{ key: 'open', index: 0, at: hand.first, label: 'First edge of the width under way', fixed: true }]
    : [];
  const put = (next: SpanInHand | null): void => state.setState({ tool: next, selected: null });
  const words = (id: string): string => {
    const span = here.find((s) => s.id === id);
    return span ? spanWords(span) : KIND_WORDS[hand.kind];
  };
  const idOf = (key: string) => key.slice('span|'.length);
  return {
    handles: [...placed, ...open],
    places: true,
    draws: false,
    line: `${KIND_WORDS[hand.kind]}: press ${hand.first ? 'its other edge' : 'one edge, straight across from the other'}. Escape: done.`,
    press: (at) => {
      const now = state.getState().tool;
      const turn = spanStep(now?.is === 'span' ? now : hand, at, { id: newId(), zoneAt: zoneOnFilm(shown(), film) });
      state.setState({ tool: turn.hand });
      if (turn.span) session.commit([addSpan(shown(), turn.span)], `${spanWords(turn.span)} marked`);
    },
    stroke: () => undefined,
    move: ({ key, index }, to) => {
      if (key === 'open') return put({ ...hand, first: to });
      const edit = moveSpan(shown(), idOf(key), { edge: EDGES[index] ?? 'to', to: onFilm(to) });
      session.draft([edit], `${words(idOf(key))}: edge moved`);
    },
    remove: ({ key }) => {
      if (key === 'open') return put({ ...hand, first: null });
      session.commit([removeSpan(shown(), idOf(key))], `${words(idOf(key))} taken away`);
      state.setState({ selected: null });
    },
    close: () => undefined,
    back: () => {
      const last = here.at(-1);
      if (hand.first) put({ ...hand, first: null });
      else if (last) session.commit([removeSpan(shown(), last.id)], `${spanWords(last)} taken away`);
    },
    leave: () => put(hand.first ? { ...hand, first: null } : null),
  };
}
