import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { usePlanning } from '../case/desk.tsx';
import { ConfirmedBy } from './ConfirmedBy.tsx';

/** A film whose file names another person is held until somebody confirms that both are one patient (FILM-8). */
export function PersonConfirmation({
  film,
  change,
}: {
  readonly film: CaseFilm;
  readonly change: (by: Partial<CaseFilm>, what: string) => void;
}) {
  const asked = usePlanning((s) =>
    s.plan.films.some((f) => f.id === film.id && f.warnings.some((w) => w.code === 'film-of-another-person')),
  );
  return (
    <ConfirmedBy
      given={film.personConfirmed}
      told="Same patient, confirmed"
      asked={asked}
      button="Confirm: this film is of the same patient"
      confirm={(personConfirmed) => change({ personConfirmed }, 'same patient confirmed')}
    />
  );
}
