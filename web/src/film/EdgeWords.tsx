import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { EDGES, edgeAhead } from './edge-ahead.ts';
import type { Viewport } from './viewport.ts';

interface Props {
  readonly film: CaseFilm;
  readonly view: Viewport;
}

/** Which side of the patient lies at which edge, however the film is shown, or that nobody has said yet. */
export function EdgeWords({ film, view }: Props) {
  const towards = film.columnsTowards;
  if (!towards) return <span className="film-edge at-right">direction not confirmed</span>;
  const [behind, ahead] = {
    'patient-left': ["Patient's right", "Patient's left"],
    'patient-right': ["Patient's left", "Patient's right"],
    anterior: ['Back', 'Front'],
    posterior: ['Front', 'Back'],
  }[towards];
  const edge = edgeAhead(view);
  return (
    <>
      <span className={`film-edge at-${EDGES[(edge + 2) % 4]}`}>{behind}</span>
      <span className={`film-edge at-${EDGES[edge]}`}>{ahead}</span>
    </>
  );
}
