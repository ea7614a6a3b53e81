import type { DrawnDefect } from '@gapline/core/bone/bone-map.ts';
import { defectWords, removeDefect } from '../../case/defect-edits.ts';
import { useDesk, useSession } from '../../case/desk.tsx';
import { tabWord } from '../../film/FilmTabs.tsx';
import { showWithTool } from '../../film/show-with-tool.ts';
import type { BoneName } from './bone-drawing.ts';

/** Defects of this bone that were drawn on films, with what they measure. */
export function DrawnDefects({ bone }: { readonly bone: BoneName }) {
  const drawn = useSession((s) => s.shown.bone?.drawn);
  const own = (drawn ?? []).filter((d) => d.surface.startsWith(bone));
  if (own.length === 0) return null;
  return (
    <ul className="drawn-list">
      {own.map((defect) => (
        <OneDrawn key={defect.id} defect={defect} />
      ))}
    </ul>
  );
}

function OneDrawn({ defect }: { readonly defect: DrawnDefect }) {
  const { session, state } = useDesk();
  const films = useSession((s) => s.shown.films);
  const film = films.find((f) => f.id === defect.film);
  const words = defectWords(defect);
  return (
    <li className="drawn-line-item" data-drawn={defect.id}>
      <span>
        <strong>{words}</strong>
        <small> drawn on {film ? tabWord(film, films) : 'a film that is gone'}</small>
      </span>
      <span className="buttons">
        <button type="button" onClick={() => showWithTool(state, { is: 'adjust', film: defect.film })}>
          Move corners
          <span className="unseen"> of {words}</span>
        </button>
        <button
          type="button"
          className="remove"
          aria-label={`Take away: ${words}`}
          onClick={() => {
            session.commit([removeDefect(session.store.getState().shown, defect.id)], `${words}: outline taken away`);
            state.setState({ tool: null });
          }}
        >
          ×
        </button>
      </span>
    </li>
  );
}
