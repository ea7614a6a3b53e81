import { hasMillimetres } from '@gapline/core/calibration/calibration.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import { CORONAL_VIEWS } from '@gapline/core/landmarks/view.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import type { PlanFilm } from '@gapline/core/plan/plan.ts';
import { SCALE_WORDS, sideWord, VIEW_WORDS } from '../parts/words.ts';
import { scaleBar } from './scale-bar.ts';
import type { Viewport } from './viewport.ts';

interface Props {
  readonly film: CaseFilm;
  readonly planned: PlanFilm | undefined;
  readonly view: Viewport;
}

/** What must always be in sight on a film: side in words, view, date, where its millimetres come from, a scale bar. */
export function FilmFacts({ film, planned, view }: Props) {
  const calibration = planned?.calibration;
  const mm = calibration && hasMillimetres(calibration) ? calibration : null;
  const bar = mm ? scaleBar(mm.mmPerPx.x / view.scale, Math.min(view.width / 4, 180)) : null;
  return (
    <>
      <div className="film-facts">
        <strong className="film-side">{sideWord(film.side)}</strong>
        <span>{VIEW_WORDS[film.view]}</span>
        <span>{film.takenOn ?? 'date not known'}</span>
      </div>
      <EdgeWords film={film} mirrored={view.mirrored} />
      <div className="film-scale">
        {bar && (
          <span className="scale-bar" style={{ width: bar.px }}>
            {bar.mm} mm
          </span>
        )}
        <span>
          {calibration && calibration.source !== 'none'
            ? `Scale: ${SCALE_WORDS[calibration.source]}${mm ? `, ± ${(196 * mm.relativeSd).toFixed(1)} %` : ''}${mm?.doubtful ? ', doubtful' : ''}`
            : 'No scale: angles and ratios only'}
        </span>
      </div>
    </>
  );
}

/** Which side of the patient lies at which edge, or that nobody has said yet. */
function EdgeWords({ film, mirrored }: { readonly film: CaseFilm; readonly mirrored: boolean }) {
  const towards = film.columnsTowards;
  if (!towards) return <span className="film-edge at-right">Direction not confirmed</span>;
  const words = {
    'patient-left': ["Patient's right", "Patient's left"],
    'patient-right': ["Patient's left", "Patient's right"],
    anterior: ['Back', 'Front'],
    posterior: ['Front', 'Back'],
  }[towards];
  const [left, right] = mirrored ? words.toReversed() : words;
  return (
    <>
      <span className="film-edge at-left">{left}</span>
      <span className="film-edge at-right">{right}</span>
    </>
  );
}

/** Views from the front are shown with the patient's right at the viewer's left, whichever way the file has them. */
export const isShownMirrored = (film: CaseFilm): boolean =>
  CORONAL_VIEWS.includes(film.view) && film.columnsTowards === 'patient-right';

/** Where on the film the knee of that side is to be expected before anything is marked: its half of a film of both legs. */
export function halfOf(film: CaseFilm, side: Side): { readonly from: number; readonly to: number } {
  const { columns } = film.scaleFacts;
  if (film.side !== 'both' || !film.columnsTowards) return { from: 0, to: columns - 1 };
  const rightFirst = film.columnsTowards === 'patient-left';
  return (side === 'right') === rightFirst ? { from: 0, to: columns / 2 } : { from: columns / 2, to: columns - 1 };
}
