import { sameLandmark } from '@gapline/core/landmarks/repeated-mark.ts';
import { openConflicts } from '@gapline/core/plan/keep-both.ts';
import { useMemo } from 'react';
import { useSession } from '../case/desk.tsx';
import type { FilmTool } from '../film/tool-in-hand.ts';
import { type Place, toScreen, type Viewport } from '../film/viewport.ts';

interface Props {
  readonly film: string;
  readonly tool: FilmTool | null;
  readonly view: Viewport;
}

/** What marking draws over a film: offers, dashed, and both places of a mark that two people moved. */
export function MarkingOverlay({ film, tool, view }: Props) {
  return (
    <>
      {!tool?.blind && <SecondPlaces film={film} view={view} />}
      {tool?.offered?.map((shape) => (
        <g key={shape.points.map((p) => `${p.x} ${p.y}`).join(' ')} className="offered">
          <path className="offered-shade" d={pathOf(shape.points, shape.closed, view)} />
          <path className="offered-line" d={pathOf(shape.points, shape.closed, view)} />
        </g>
      ))}
    </>
  );
}

function SecondPlaces({ film, view }: Omit<Props, 'tool'>) {
  const file = useSession((s) => s.shown);
  const both = useMemo(
    () =>
      openConflicts(file)
        .filter((c) => c.film === film)
        .map((second) => ({ second, first: file.marks.find((m) => sameLandmark(m, second)) })),
    [file, film],
  );
  return both.map(({ second, first }) =>
    second.points.map((p, i) => {
      const at = toScreen(view, p);
      const from = first?.points[i] ? toScreen(view, first.points[i]) : null;
      return (
        <g key={`${second.landmark} ${second.side} ${second.round} ${p.x} ${p.y}`} className="second-place">
          {from && <path d={`M${from.x} ${from.y}L${at.x} ${at.y}`} />}
          <rect x={at.x - 7} y={at.y - 7} width="14" height="14" transform={`rotate(45 ${at.x} ${at.y})`} />
        </g>
      );
    }),
  );
}

/** A lone point is drawn as a ring. */
function pathOf(points: readonly Place[], closed: boolean, view: Viewport): string {
  const at = points.map((p) => toScreen(view, p));
  const [only] = at;
  if (only && at.length === 1) return `M${only.x - 9} ${only.y}a9 9 0 1 0 18 0a9 9 0 1 0 -18 0`;
  return `${at.map((p, i) => `${i === 0 ? 'M' : 'L'}${p.x.toFixed(1)} ${p.y.toFixed(1)}`).join('')}${closed ? 'Z' : ''}`;
}
