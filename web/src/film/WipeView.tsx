import type { FilmRegistration } from '@gapline/core/plane/register-films.ts';
import { type KeyboardEvent, useMemo, useRef, useState } from 'react';
import { usePlanning, useSession } from '../case/desk.tsx';
import { type KeyWish, keyWish } from '../gestures/keys.ts';
import { number, sideWord, VIEW_WORDS } from '../parts/words.ts';
import { sideOn } from './anchor.ts';
import { chosenPoints, type Dates, registered, wipePoints } from './before-after.ts';
import { EdgeWords } from './EdgeWords.tsx';
import { FilmCanvas } from './FilmCanvas.tsx';
import { isShownMirrored, ScaleBar } from './FilmFacts.tsx';
import { FilmTools } from './FilmTools.tsx';
import type { LoadedFilm } from './film-shelf.ts';
import { type GreyWindow, greyAlike } from './grey.ts';
import { useFilm } from './use-film.ts';
import { useFilmSize } from './use-film-size.ts';
import { useGrey } from './use-grey.ts';
import { useHand } from './use-hand.ts';
import { type Looked, useLooking } from './use-looking.ts';
import { useOpenView } from './use-open-view.ts';
import type { Wipe } from './viewing.ts';
import type { Viewport } from './viewport.ts';
import { WipeHandle } from './WipeHandle.tsx';
import { WipeResidual } from './WipeResidual.tsx';

interface Props extends Dates {
  readonly wipe: Wipe;
}

const asItIs = (whole: Viewport): Viewport => whole;

/** Two dates of one view in one place: the later film, and the earlier one laid onto it as far as the line. */
export function WipeView({ earlier, later, wipe }: Props) {
  const loaded = { earlier: useFilm(earlier.sha256), later: useFilm(later.sha256) };
  const size = useFilmSize(later);
  const { area, view, setView } = useOpenView({ size, mirrored: isShownMirrored(later), begin: asItIs });
  const [grey, setGrey, startGrey] = useGrey(loaded.later.film?.about.window);
  const { fit, points } = useRegistration({ earlier, later }, wipe);
  const { film: after } = loaded.later;
  const { film: before } = loaded.earlier;
  return (
    <div className="wipe">
      <div className="film" ref={area}>
        {view && after && before && grey && startGrey ? (
          <OnWipe
            dates={{ earlier, later }}
            fit={fit.ok ? fit.value : null}
            before={before}
            after={after}
            size={size}
            range={after.about.most - after.about.least}
            startGrey={startGrey}
            view={view}
            setView={setView}
            grey={grey}
            setGrey={setGrey}
          />
        ) : (
          <p className="film-waiting" role="status">
            {loaded.later.fault ?? loaded.earlier.fault ?? 'Two films are being loaded …'}
          </p>
        )}
      </div>
      <WipeResidual dates={{ earlier, later }} wipe={wipe} points={points} fit={fit} view={view} />
    </div>
  );
}

interface OnWipeProps extends Looked {
  readonly dates: Dates;
  /** How the earlier film is laid onto the later one; null where it is not. */
  readonly fit: FilmRegistration | null;
  readonly before: LoadedFilm;
  readonly after: LoadedFilm;
}

function OnWipe({ dates, fit, before, after, ...looked }: OnWipeProps) {
  const { view, grey, startGrey } = looked;
  const [share, setShare] = useState(0.5);
  const surface = useRef<HTMLButtonElement>(null);
  const looking = useLooking(looked);
  const calibration = usePlanning((s) => s.plan.films.find((f) => f.id === dates.later.id)?.calibration);
  const hand = useHand({
    surface,
    setting: { placing: false, windowing: looking.windowing, placeOf: () => null },
    points: () => [],
    carryOut: looking.carryOut,
    onHover: () => undefined,
  });
  const ownGrey = useMemo(
    () => greyAlike(grey, { start: startGrey, own: { ...before.about.window, inverted: false } }),
    [grey, startGrey, before],
  );
  const onKey = (event: KeyboardEvent): void => {
    if (hand.onSpace(event, true)) return;
    const wish = keyWish(
      { key: event.key, shift: event.shiftKey, alt: event.altKey, ctrl: event.ctrlKey || event.metaKey },
      'film',
    );
    if (wish && looking.carryOut(wish)) event.preventDefault();
  };
  const { earlier, later } = dates;
  return (
    <section
      className={`film-surface is-wipe${looking.windowing ? ' is-windowing' : ''}`}
      aria-label={`Before and after: ${earlier.file} and ${later.file}`}
      data-film={later.id}
      data-pane="wipe"
      onKeyDown={onKey}
      onKeyUp={(event) => hand.onSpace(event, false)}
    >
      <button
        ref={surface}
        type="button"
        className="film-touch"
        aria-roledescription="film"
        aria-label={`Picture of ${later.file} with ${earlier.file} laid onto it. Arrow keys move it, plus and minus zoom.`}
        {...hand.surface}
      >
        <FilmCanvas levels={after.levels} view={view} grey={grey} moving={looking.moving} />
        {fit && <Earlier film={before} fit={fit} view={view} grey={ownGrey} share={share} moving={looking.moving} />}
      </button>
      <DateOf film={earlier} word="Before" />
      <DateOf film={later} word="After" />
      <EdgeWords film={later} view={view} />
      <ScaleBar calibration={calibration} view={view} />
      {fit && <WipeHandle share={share} width={view.width} onShare={setShare} />}
      <FilmTools
        windowing={looking.windowing}
        inverted={grey.inverted}
        turnDeg={view.turnDeg}
        onWish={(wish: KeyWish) => void looking.carryOut(wish)}
      />
    </section>
  );
}

/** The earlier film as far as the line, in the place where the registration puts it. */
function Earlier(props: {
  readonly film: LoadedFilm;
  readonly fit: FilmRegistration;
  readonly view: Viewport;
  readonly grey: GreyWindow;
  readonly share: number;
  readonly moving: boolean;
}) {
  const { film, fit, view, grey, share, moving } = props;
  return (
    <span className="wipe-before" style={{ clipPath: `inset(0 ${number(100 * (1 - share), 'mm')}% 0 0)` }}>
      <FilmCanvas levels={film.levels} view={view} grey={grey} moving={moving} through={fit.toEarlier} />
    </span>
  );
}

function DateOf({ film, word }: { readonly film: Dates['later']; readonly word: 'Before' | 'After' }) {
  return (
    <div className={`film-facts is-${word.toLowerCase()}`}>
      <strong className="film-side">
        {sideWord(film.side)} {word.toLowerCase()}
      </strong>
      <span>{VIEW_WORDS[film.view]}</span>
      <span className="film-date">{film.takenOn ?? 'date not known'}</span>
    </div>
  );
}

/** The points that hold the two films together as they are marked now, and how well they do. */
function useRegistration({ earlier, later }: Dates, { bone, chosen }: Wipe) {
  const marks = useSession((s) => s.shown.marks);
  const caseSide = useSession((s) => s.shown.side);
  const films = usePlanning((s) => s.plan.films);
  const side = sideOn(later, caseSide);
  const points = useMemo(
    () => wipePoints(marks, { earlier, later }, { side, bone }),
    [marks, earlier, later, side, bone],
  );
  const scaleOf = (id: string) => films.find((f) => f.id === id)?.calibration;
  const scales = { earlier: scaleOf(earlier.id), later: scaleOf(later.id) };
  const fit = useMemo(
    () => registered(chosenPoints(points, chosen), { earlier: scales.earlier, later: scales.later }),
    [points, chosen, scales.earlier, scales.later],
  );
  return { fit, points };
}
