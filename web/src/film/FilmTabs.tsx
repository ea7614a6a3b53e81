import { useState } from 'react';
import { useDesk, useDeskState, useSession } from '../case/desk.tsx';
import { BesideSelect } from './BesideSelect.tsx';
import { CompareBar } from './CompareBar.tsx';
import { tabWord } from './tab-word.ts';

/** Which film is shown, alone or beside others, and what is drawn on it. */
export function FilmTabs() {
  const { state } = useDesk();
  const films = useSession((s) => s.shown.films);
  const shown = useDeskState((s) => s.films);
  const layers = useDeskState((s) => s.layers);
  const wiping = useDeskState((s) => s.viewing.wipe !== null);
  const [comparing, setComparing] = useState(false);
  const [first, ...others] = shown;
  const two = shown.length > 1;
  const pick = (id: string): void =>
    state.setState((s) => ({
      films: [id, ...others.filter((other) => other !== id)],
      placing: null,
      viewing: { ...s.viewing, wipe: null },
    }));
  const pair = (): void => {
    const other = films.find((f) => f.id !== first);
    if (first) state.setState({ films: two || !other ? [first] : [first, other.id] });
  };
  return (
    <>
      <div className="film-tabs">
        <fieldset className="film-tab-list">
          <legend className="unseen">Film shown</legend>
          {films.map((film) => (
            <button
              key={film.id}
              type="button"
              aria-pressed={!wiping && film.id === first}
              onClick={() => pick(film.id)}
            >
              {tabWord(film, films)}
            </button>
          ))}
        </fieldset>
        <div className="film-pair">
          {films.length > 1 && (
            <button type="button" aria-pressed={two} disabled={wiping} onClick={pair}>
              Two films
            </button>
          )}
          {two && !wiping && <BesideSelect place={1} />}
          {films.length > 0 && (
            <button type="button" aria-expanded={comparing} onClick={() => setComparing(!comparing)}>
              Compare
            </button>
          )}
        </div>
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
      {comparing && <CompareBar />}
    </>
  );
}
