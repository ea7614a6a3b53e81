import { hasMillimetres } from '@gapline/core/calibration/calibration.ts';
import { CORONAL_VIEWS } from '@gapline/core/landmarks/view.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import type { PlanFilm } from '@gapline/core/plan/plan.ts';
import { usePlanning, useSession } from '../case/desk.tsx';
import { SCALE_WORDS, sideWord, VIEW_WORDS, withUnit } from '../parts/words.ts';
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
        <MainAngles film={film} />
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

/** The angles that are looked for first, when they were measured on this film. */
const MAIN_ANGLES: Readonly<Record<string, string>> = {
  hka: 'HKA',
  mldfa: 'mLDFA',
  mpta: 'MPTA',
  jlca: 'JLCA',
  'tibial-slope': 'Slope',
};

function MainAngles({ film }: { readonly film: CaseFilm }) {
  const side = useSession((s) => s.shown.side);
  const measurements = usePlanning((s) => s.plan.measurements);
  return measurements
    .filter((m) => m.film === film.id && m.side === side && m.value !== null && m.id in MAIN_ANGLES)
    .map((m) => (
      <span key={m.id} className="film-angle">
        {MAIN_ANGLES[m.id]} <strong>{withUnit(m.value ?? 0, m.unit)}</strong>
      </span>
    ));
}

/** Which side of the patient lies at which edge, or that nobody has said yet. */
function EdgeWords({ film, mirrored }: { readonly film: CaseFilm; readonly mirrored: boolean }) {
  const towards = film.columnsTowards;
  if (!towards) return <span className="film-edge at-right">direction not confirmed</span>;
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
