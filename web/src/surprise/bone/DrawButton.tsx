import type { DrawnDefect } from '@gapline/core/bone/bone-map.ts';
import type { View } from '@gapline/core/landmarks/view.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useDesk, useDeskState, useSession } from '../../case/desk.tsx';
import { NOTHING_DRAWN } from '../../film/draw-outline.ts';
import { showWithTool } from '../../film/show-with-tool.ts';
import { tabWord } from '../../film/tab-word.ts';

/** Views on which a surface is seen edge on, so that its loss can be measured. */
const SEEN_ON: Readonly<Record<DrawnDefect['surface'], readonly View[]>> = {
  'femur-distal': ['ap', 'long-leg'],
  'femur-posterior': ['lateral'],
  'femur-anterior': ['lateral'],
  'tibia-plateau': ['ap', 'long-leg'],
  'femur-metaphysis': ['ap', 'lateral', 'long-leg'],
  'tibia-metaphysis': ['ap', 'lateral', 'long-leg'],
};

/** Films of the knee as it is now that show a surface, best view first. */
const filmsFor = (films: readonly CaseFilm[], surface: DrawnDefect['surface']): readonly CaseFilm[] =>
  SEEN_ON[surface].flatMap((view) => films.filter((f) => f.view === view && f.role === 'present'));

type What = Pick<DrawnDefect, 'surface' | 'compartment'>;

/** Takes up the pencil for one surface, on the film that shows it. */
export function DrawButton({ surface, compartment }: What) {
  const { state } = useDesk();
  const films = useSession((s) => s.shown.films);
  const tool = useDeskState((s) => s.tool);
  const fitting = filmsFor(films, surface);
  if (fitting.length === 0)
    return <p className="said-line">No film of this knee shows this surface from the side: enter it by hand.</p>;
  return (
    <div className="buttons">
      {fitting.map((film) => {
        const inHand =
          tool?.is === 'draw' && tool.film === film.id && tool.surface === surface && tool.compartment === compartment;
        return (
          <button
            key={film.id}
            type="button"
            aria-pressed={inHand}
            onClick={() =>
              inHand
                ? state.setState({ tool: null })
                : showWithTool(state, {
                    is: 'draw',
                    film: film.id,
                    surface,
                    compartment,
                    drawing: NOTHING_DRAWN,
                    said: null,
                  })
            }
          >
            Draw it: {tabWord(film, films)}
          </button>
        );
      })}
    </div>
  );
}
