import { type Calibration, hasMillimetres } from '@gapline/core/calibration/calibration.ts';
import { CORONAL_VIEWS } from '@gapline/core/landmarks/view.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import type { PlanFilm } from '@gapline/core/plan/plan.ts';
import { usePlanning, useSession } from '../case/desk.tsx';
import { number, SCALE_WORDS, sideWord, VIEW_WORDS, withUnit } from '../parts/words.ts';
import { EdgeWords } from './EdgeWords.tsx';
import type { Pane } from './panes.ts';
import { scaleBar } from './scale-bar.ts';
import type { Viewport } from './viewport.ts';

interface Props {
  readonly pane: Pane;
  readonly planned: PlanFilm | undefined;
  readonly view: Viewport;
  /** Why this film does not move with those it should be linked with. */
  readonly apart: string | null;
}

/** What must always be in sight on a film: side in words, view, date, where its millimetres come from, a scale bar. */
export function FilmFacts({ pane, planned, view, apart }: Props) {
  const { film, otherKnee } = pane;
  return (
    <>
      <div className="film-facts">
        <strong className="film-side">{sideWord(otherKnee ? pane.side : film.side)}</strong>
        {otherKnee && <strong className="film-mirrored">Other knee, mirrored</strong>}
        <span>{VIEW_WORDS[film.view]}</span>
        <span className="film-date">{film.takenOn ?? 'date not known'}</span>
        {view.turnDeg !== 0 && <span className="film-turned">Turned {turnWord(view.turnDeg)}</span>}
        {apart && <span className="film-apart">{apart}</span>}
        {!otherKnee && <MainAngles film={film} />}
      </div>
      <EdgeWords film={film} view={view} />
      <ScaleBar calibration={planned?.calibration} view={view} />
    </>
  );
}

const turnWord = (deg: number): string =>
  `${number(Math.abs(deg), 'count')}° ${deg > 0 ? 'clockwise' : 'anticlockwise'}`;

/** How long a round number of millimetres is here, and where they come from. */
export function ScaleBar({
  calibration,
  view,
}: {
  readonly calibration: Calibration | undefined;
  readonly view: Viewport;
}) {
  const mm = calibration && hasMillimetres(calibration) ? calibration : null;
  const bar = mm ? scaleBar(mm.mmPerPx.x / view.scale, Math.min(view.width / 4, 180)) : null;
  return (
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

/** Views from the front are shown with the patient's right at the viewer's left, whichever way the file has them. */
export const isShownMirrored = (film: CaseFilm): boolean =>
  CORONAL_VIEWS.includes(film.view) && film.columnsTowards === 'patient-right';
