import { slicePlaceMm } from '@gapline/core/landmarks/slice-stack.ts';
import { usePlanning, useSession } from '../case/desk.tsx';
import { scaleBar } from '../film/scale-bar.ts';
import type { Viewport } from '../film/viewport.ts';
import { number, sideWord, signed, spread } from '../parts/words.ts';
import type { StackFilm } from './stack-film.ts';
import { type Edge, edgesOf } from './upright.ts';

interface Props {
  readonly film: StackFilm;
  readonly view: Viewport;
  readonly slice: number;
}

/** What must always be in sight on a slice: side, date, number and place of the slice, where the body lies, a scale bar. */
export function StackFacts({ film, view, slice }: Props) {
  const { slices, scaleFacts } = film;
  const [first, one] = [slices.each[0], slices.each[slice]];
  const above = first && one ? slicePlaceMm(slices, one) - slicePlaceMm(slices, first) : 0;
  const mm = scaleFacts.pixelSpacing?.[1];
  const bar = mm ? scaleBar(mm / view.scale, Math.min(view.width / 4, 180)) : null;
  const edges = edgesOf(slices, view);
  return (
    <>
      <div className="film-facts">
        <strong className="film-side">{sideWord(film.side)}</strong>
        <span>CT</span>
        <span>{film.takenOn ?? 'date not known'}</span>
        <span className="slice-number">
          Slice <strong>{slice + 1}</strong> of {slices.each.length}
        </span>
        <span className="slice-number">{number(above)} mm above the lowest</span>
        <Rotations film={film.id} />
      </div>
      {view.turnDeg % 180 === 0 && (
        <div className="slice-edges">
          <EdgeLetter at="left" edge={edges.left} />
          <EdgeLetter at="right" edge={edges.right} />
          <EdgeLetter at="top" edge={edges.top} />
          <EdgeLetter at="bottom" edge={edges.bottom} />
        </div>
      )}
      <div className="film-scale">
        {bar && (
          <span className="scale-bar" style={{ width: bar.px }}>
            {bar.mm} mm
          </span>
        )}
        <span>{mm ? 'Scale: CT spacing' : 'No scale'}</span>
      </div>
    </>
  );
}

const EdgeLetter = ({ at, edge }: { readonly at: string; readonly edge: Edge }) => (
  <span className={`slice-edge at-${at}`} title={`The patient’s ${edge.word}`}>
    {edge.letter}
  </span>
);

const SHORT: Readonly<Record<string, string>> = {
  'ct-femoral-rotation': 'Femur',
  'ct-tibial-rotation': 'Tibia',
  'ct-combined-rotation': 'Combined excess',
};

/** Rotations as far as they are measured; internal is negative and said so. */
function Rotations({ film }: { readonly film: string }) {
  const side = useSession((s) => s.shown.side);
  const measurements = usePlanning((s) => s.plan.measurements);
  const lines = measurements.filter((m) => m.film === film && m.side === side && m.id in SHORT && m.value !== null);
  if (lines.length === 0) return null;
  return (
    <>
      {lines.map((m) => (
        <span key={m.id} className="film-angle" data-rotation={m.id}>
          {SHORT[m.id]} <strong>{signed(m.value ?? 0, 'deg')}°</strong> {spread(m.sd, 'deg')}
        </span>
      ))}
      <span className="rotation-sign">− internal, + external</span>
      {lines.some((m) => m.id === 'ct-combined-rotation') && (
        <span className="rotation-sign">No cut-off for revision is known.</span>
      )}
    </>
  );
}
