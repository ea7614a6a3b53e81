import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { useEffect, useRef } from 'react';
import { moveEdit } from '../case/marking.ts';
import type { Session } from '../case/session.ts';
import type { MarkPoint } from '../gestures/pointer.ts';
import type { FilmTool } from './tool-in-hand.ts';
import type { Place } from './viewport.ts';

/** A row of nudges becomes one change when the keys have rested this long. */
const REST_MS = 500;

/** Moves a selected point by film pixels; nudges in a row become one change once the keys rest. */
export function useNudge(session: Session, find: (point: MarkPoint) => Mark | undefined) {
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

/** Moves a tool's handle by film pixels; nudges in a row become one change once the keys rest. */
export function useNudgeHandle(session: Session) {
  const timer = useRef(0);
  useEffect(() => () => window.clearTimeout(timer.current), []);
  return (tool: FilmTool, handle: MarkPoint & { readonly at: Place }, by: Place): void => {
    tool.move(handle, { x: handle.at.x + by.x, y: handle.at.y + by.y });
    window.clearTimeout(timer.current);
    timer.current = window.setTimeout(() => session.commitDraft(), REST_MS);
  };
}
