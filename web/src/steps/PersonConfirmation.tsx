import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useState } from 'react';
import { usePlanning } from '../case/desk.tsx';

/** A film whose file names another person is held until somebody confirms that both are one patient (FILM-8). */
export function PersonConfirmation({
  film,
  change,
}: {
  readonly film: CaseFilm;
  readonly change: (by: Partial<CaseFilm>, what: string) => void;
}) {
  const [by, setBy] = useState('');
  const asked = usePlanning((s) =>
    s.plan.films.some((f) => f.id === film.id && f.warnings.some((w) => w.code === 'film-of-another-person')),
  );
  if (film.personConfirmed)
    return (
      <p className="confirmed">
        Same patient, confirmed by {film.personConfirmed.by}, {film.personConfirmed.on}
      </p>
    );
  if (!asked) return null;
  return (
    <form
      className="confirm-side"
      onSubmit={(event) => {
        event.preventDefault();
        if (by.trim() === '') return;
        const on = new Date().toISOString().slice(0, 10);
        change({ personConfirmed: { by: by.trim(), on } }, 'same patient confirmed');
      }}
    >
      <label>
        <span>Your name or initials</span>
        <input type="text" value={by} required onChange={(event) => setBy(event.target.value)} />
      </label>
      <button type="submit">Confirm: this film is of the same patient</button>
    </form>
  );
}
