import { type LandmarkId, landmark } from '@gapline/core/landmarks/landmark-table.ts';
import { type RepeatedMark, sameRepeat } from '@gapline/core/landmarks/repeated-mark.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import type { Desk } from '../case/desk.tsx';
import { LEAST_OUTLINE, onFilm } from '../case/marking.ts';
import type { FilmTool, ToolHandle, ToolInHand } from '../film/tool-in-hand.ts';
import type { Place } from '../film/viewport.ts';

export type Repeating = Extract<ToolInHand, { is: 'repeat' }>;

/** The landmark that is asked for now; null = all were asked for. */
export const askedNow = (tool: Repeating): LandmarkId | null => tool.asked[tool.at] ?? null;

/** One placing of the set under way. */
export const placedInRound = (file: CaseFile, tool: Repeating, id: LandmarkId): RepeatedMark | undefined =>
  file.repeats?.find((r) => sameRepeat(r, { landmark: id, side: tool.side, film: tool.film, round: tool.round }));

/** Whether the outline that is asked for has points enough to go on. */
export function isOutlineDone(file: CaseFile, tool: Repeating): boolean {
  const id = askedNow(tool);
  const points = id ? (placedInRound(file, tool, id)?.points.length ?? 0) : 0;
  return id !== null && landmark(id).outline && points >= LEAST_OUTLINE;
}

/** The next landmark of the set; after the last one the tool is put down. */
export function goOn(desk: Desk): void {
  const inHand = desk.state.getState().tool;
  if (inHand?.is !== 'repeat') return;
  const at = inHand.at + 1;
  desk.state.setState({ tool: at < inHand.asked.length ? { ...inHand, at } : null, selected: null });
}

/**
 * Places the landmarks of a film again, blind: the marks of the first set, the plan and whatever else was drawn are hidden, and
 * only the points of this set can be seen and moved.
 */
export function repeatTool(desk: Desk, tool: Repeating, file: CaseFile): FilmTool {
  const { session, state } = desk;
  const id = askedNow(tool);
  const shown = (): CaseFile => session.store.getState().shown;
  const inHand = (): Repeating => {
    const now = state.getState().tool;
    return now?.is === 'repeat' ? now : tool;
  };
  const put = (of: LandmarkId, points: readonly Place[]): Edit => {
    const { side, film, round } = inHand();
    const repeat = {
      landmark: of,
      side,
      film,
      points: points.map(onFilm),
      how: 'by-hand',
      round,
      why: 'repeat',
    } as const;
    return { kind: 'put-repeat', repeat };
  };
  const words = (of: LandmarkId): string => `${landmark(of).label} placed again, ${tool.side}`;
  const pointsOf = (of: LandmarkId): readonly Place[] => placedInRound(shown(), inHand(), of)?.points ?? [];
  const takeOff = (of: LandmarkId, index: number): void => {
    const left = pointsOf(of).filter((_, i) => i !== index);
    const { side, film, round } = inHand();
    const edit: Edit = left.length > 0 ? put(of, left) : { kind: 'remove-repeat', landmark: of, side, film, round };
    session.commit([edit], `${landmark(of).label}: point of the repeat taken away`);
  };
  return {
    handles: handlesOf(file, tool),
    places: id !== null,
    draws: false,
    blind: true,
    placesOn: (point) => point.key !== askedNow(inHand()),
    line: lineOf(file, tool),
    press: (at) => {
      const now = askedNow(inHand());
      if (!now) return;
      const { outline } = landmark(now);
      session.commit([put(now, outline ? [...pointsOf(now), at] : [at])], words(now));
      if (!outline) goOn(desk);
    },
    stroke: () => undefined,
    move: (point, to) => {
      const of = point.key as LandmarkId;
      session.draft(
        [
          put(
            of,
            pointsOf(of).map((p, i) => (i === point.index ? to : p)),
          ),
        ],
        words(of),
      );
    },
    remove: (point) => {
      state.setState({ selected: null });
      takeOff(point.key as LandmarkId, point.index);
    },
    close: () => isOutlineDone(shown(), inHand()) && goOn(desk),
    back: () => {
      const now = inHand();
      const open = askedNow(now);
      if (open && pointsOf(open).length > 0) return takeOff(open, pointsOf(open).length - 1);
      if (now.at > 0) state.setState({ tool: { ...now, at: now.at - 1 }, selected: null });
    },
    leave: () => state.setState({ tool: null, selected: null }),
  };
}

function handlesOf(file: CaseFile, tool: Repeating): readonly ToolHandle[] {
  return tool.asked.flatMap((id) => {
    const { label, outline } = landmark(id);
    const points = placedInRound(file, tool, id)?.points ?? [];
    return points.map((at, index) => ({ key: id, index, at, label: outline ? `${label} ${index + 1}` : label }));
  });
}

function lineOf(file: CaseFile, tool: Repeating): string {
  const id = askedNow(tool);
  if (!id) return 'All placed again. Escape: done.';
  const { label, outline } = landmark(id);
  const points = placedInRound(file, tool, id)?.points.length ?? 0;
  const what = outline
    ? `press along the outline (${points} so far; C: done)`
    : 'press where it lies, or Enter for a crosshair';
  return `${label}, ${tool.side}, placing ${tool.round} (${tool.at + 1} of ${tool.asked.length}): ${what}`;
}
