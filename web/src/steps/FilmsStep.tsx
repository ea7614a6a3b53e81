import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useState } from 'react';
import { useDesk, useDeskState, usePlanning, useSession } from '../case/desk.tsx';
import { Choice } from '../parts/fields.tsx';
import { DIRECTION_WORDS, ROLE_WORDS, SCALE_WORDS, sideWord, VIEW_WORDS } from '../parts/words.ts';
import { ConfirmedBy } from './ConfirmedBy.tsx';
import { PersonConfirmation } from './PersonConfirmation.tsx';
import { ScaleForm } from './ScaleForm.tsx';

const pairs = <K extends string>(words: Readonly<Record<K, string>>): readonly (readonly [string, string])[] =>
  Object.entries<string>(words);

/** Every film with its side, view, direction and where its millimetres come from. */
export function FilmsStep() {
  const films = useSession((s) => s.shown.films);
  return (
    <ul className="film-cards">
      {films.map((film) => (
        <FilmCard key={film.id} film={film} />
      ))}
    </ul>
  );
}

function FilmCard({ film }: { readonly film: CaseFilm }) {
  const { session, state } = useDesk();
  const planned = usePlanning((s) => s.plan.films.find((f) => f.id === film.id));
  const conflicts = usePlanning((s) => s.plan.conflicts);
  const isShown = useDeskState((s) => s.films.includes(film.id));
  const [open, setOpen] = useState(false);
  const change = (by: Partial<CaseFilm>, what: string): void => {
    session.commit([{ kind: 'put-film', film: { ...film, ...by } }], `${film.file}: ${what}`);
  };
  const calibration = planned?.calibration;
  return (
    <li className={`film-card${isShown ? ' is-shown' : ''}`}>
      <button
        type="button"
        className="film-card-head"
        onClick={() => state.setState({ films: [film.id], placing: null })}
      >
        <strong>{VIEW_WORDS[film.view]}</strong> {sideWord(film.side).toLowerCase()}
        <span className="film-card-file">{film.file}</span>
      </button>
      <p className="film-card-scale">
        {calibration ? (
          <>
            Scale: <strong>{SCALE_WORDS[calibration.source]}</strong>
            {calibration.source !== 'none' && ` ± ${(196 * calibration.relativeSd).toFixed(1)} %`}.{' '}
            {calibration.because}
          </>
        ) : (
          'Scale not known yet'
        )}
      </p>
      {planned?.warnings.map((w) => (
        <p
          key={`${w.code} ${w.message}`}
          className={conflicts.some((c) => c.message === w.message) ? 'warning' : 'caution-line'}
        >
          {w.message} {w.mend}
        </p>
      ))}
      <SideConfirmation film={film} change={change} />
      <PersonConfirmation film={film} change={change} />
      <button type="button" className="more" aria-expanded={open} onClick={() => setOpen(!open)}>
        {open ? 'Less' : 'Side, view, direction, scale'}
      </button>
      {open && (
        <div className="fields">
          <Choice
            label="View"
            options={pairs(VIEW_WORDS)}
            value={film.view}
            onChoose={(view) =>
              change({ view: view as CaseFilm['view'] }, `view ${VIEW_WORDS[view as CaseFilm['view']]}`)
            }
          />
          <Choice
            label="Side on the film"
            options={[
              ['right', 'Right'],
              ['left', 'Left'],
              ['both', 'Both legs'],
            ]}
            value={film.side}
            onChoose={(side) => change({ side: side as CaseFilm['side'] }, `side ${side}`)}
          />
          <Choice
            label="From left to right the picture runs towards"
            options={pairs(DIRECTION_WORDS)}
            none="not known"
            value={film.columnsTowards ?? ''}
            onChoose={(to) => {
              const { columnsTowards: _, ...rest } = film;
              const next =
                to === '' ? rest : { ...rest, columnsTowards: to as NonNullable<CaseFilm['columnsTowards']> };
              session.commit([{ kind: 'put-film', film: next }], `${film.file}: direction confirmed`);
            }}
          />
          <Choice
            label="Shows"
            options={pairs(ROLE_WORDS)}
            value={film.role}
            onChoose={(role) => change({ role: role as CaseFilm['role'] }, 'what it shows')}
          />
          <label className="choice">
            <input
              type="checkbox"
              checked={film.standing ?? false}
              onChange={(event) => change({ standing: event.target.checked }, 'standing or lying')}
            />
            <span>Taken standing</span>
          </label>
          <ScaleForm film={film} />
        </div>
      )}
    </li>
  );
}

/** A film whose side the file does not say, or says otherwise, is held until a person confirms it. */
function SideConfirmation({
  film,
  change,
}: {
  readonly film: CaseFilm;
  readonly change: (by: Partial<CaseFilm>, what: string) => void;
}) {
  const planned = usePlanning((s) => s.plan.films.find((f) => f.id === film.id));
  const asked = planned?.warnings.some((w) => /side/.test(w.code)) ?? false;
  return (
    <ConfirmedBy
      given={film.sideConfirmed}
      told="Side confirmed"
      asked={asked}
      button={`Confirm: this film shows ${film.side === 'both' ? 'both legs' : `the ${film.side} knee`}`}
      confirm={(sideConfirmed) => change({ sideConfirmed }, `side ${film.side} confirmed`)}
    />
  );
}
