import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useDesk, useDeskState, useSession } from '../case/desk.tsx';
import { sideWord, VIEW_WORDS } from '../parts/words.ts';

/** Which film is shown, alone or beside a second one, and what is drawn on it. */
export function FilmTabs() {
  const { state } = useDesk();
  const films = useSession((s) => s.shown.films);
  const shown = useDeskState((s) => s.films);
  const layers = useDeskState((s) => s.layers);
  const [first, second] = shown;
  const two = shown.length > 1;
  const pick = (id: string): void => {
    state.setState({ films: two && second && id !== second ? [id, second] : [id], placing: null });
  };
  const pair = (): void => {
    const other = films.find((f) => f.id !== first);
    if (first) state.setState({ films: two || !other ? [first] : [first, other.id] });
  };
  return (
    <div className="film-tabs">
      <fieldset className="film-tab-list">
        <legend className="unseen">Film shown</legend>
        {films.map((film) => (
          <button key={film.id} type="button" aria-pressed={film.id === first} onClick={() => pick(film.id)}>
            {tabWord(film, films)}
          </button>
        ))}
      </fieldset>
      {films.length > 1 && (
        <div className="film-pair">
          <button type="button" aria-pressed={two} onClick={pair}>
            Two films
          </button>
          {two && (
            <label>
              <span className="unseen">Second film</span>
              <select
                value={second}
                onChange={(event) => first && state.setState({ films: [first, event.target.value] })}
              >
                {films
                  .filter((f) => f.id !== first)
                  .map((f) => (
                    <option key={f.id} value={f.id}>
                      {tabWord(f, films)}
                    </option>
                  ))}
              </select>
            </label>
          )}
        </div>
      )}
      <fieldset className="film-layers">
        <legend className="unseen">Drawn on the film</legend>
        {(['present', 'plan', 'marks', 'names'] as const).map((layer) => (
          <label key={layer} className={`layer-choice is-${layer}`}>
            <input
              type="checkbox"
              checked={layers[layer]}
              onChange={(event) => state.setState({ layers: { ...layers, [layer]: event.target.checked } })}
            />
            {{ present: 'As it is', plan: 'Plan', marks: 'Marks', names: 'Names' }[layer]}
          </label>
        ))}
      </fieldset>
    </div>
  );
}

/** View, with the side or date added where two films would be called alike. */
export function tabWord(film: CaseFilm, all: readonly CaseFilm[]): string {
  const alike = all.filter((f) => f.view === film.view);
  if (alike.length < 2) return VIEW_WORDS[film.view];
  const sides = new Set(alike.map((f) => f.side)).size > 1 ? `, ${sideWord(film.side).toLowerCase()}` : '';
  const roles = new Set(alike.map((f) => f.role)).size > 1 && film.role !== 'present' ? ', earlier' : '';
  const last = sides || roles ? '' : ` ${alike.indexOf(film) + 1}`;
  return `${VIEW_WORDS[film.view]}${sides}${roles}${last}`;
}
