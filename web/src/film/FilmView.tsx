import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useCallback, useLayoutEffect, useMemo } from 'react';
import { useDesk, useSession } from '../case/desk.tsx';
import { sideOn } from './anchor.ts';
import { isShownMirrored } from './FilmFacts.tsx';
import { noteFirstSight } from './first-sight.ts';
import { constructIn, kneeIn } from './in-sight.ts';
import { OnFilm } from './OnFilm.tsx';
import type { Pane } from './panes.ts';
import { useFilm } from './use-film.ts';
import { useFilmSize } from './use-film-size.ts';
import { useGrey } from './use-grey.ts';
import { useLinkedView } from './use-linked-view.ts';
import { useOpenView } from './use-open-view.ts';
import type { Viewport } from './viewport.ts';

/** What is in sight at the start: the whole film, or the construct that is planned (without one, the knee as marked). */
export type StartsAt = 'whole' | 'construct';

interface Props {
  readonly film: CaseFilm;
  readonly startsAt?: StartsAt;
}

/** One film alone. */
export function FilmView({ film, startsAt = 'whole' }: Props) {
  const side = useSession((s) => s.shown.side);
  const pane = useMemo(
    (): Pane => ({ key: film.id, film, side: sideOn(film, side), otherKnee: false, first: true }),
    [film, side],
  );
  return <FilmPane pane={pane} startsAt={startsAt} />;
}

/** One film with everything that is drawn on it, and every gesture on it. */
export function FilmPane({ pane, startsAt }: { readonly pane: Pane; readonly startsAt: StartsAt }) {
  const { film, otherKnee } = pane;
  const loaded = useFilm(film.sha256);
  const size = useFilmSize(film);
  const mirrored = isShownMirrored(film) !== otherKnee;
  const { session, planning } = useDesk();
  const begin = useCallback(
    (whole: Viewport): Viewport => {
      const marks = session.store.getState().shown.marks.filter((m) => m.film === film.id);
      if (otherKnee)
        return (
          (film.side === 'both' &&
            kneeIn(
              marks.filter((m) => m.side === pane.side),
              whole,
              size,
            )) ||
          whole
        );
      if (startsAt === 'whole') return whole;
      const drawn = planning.store.getState().plan.drawings.find((d) => d.film === film.id)?.layers ?? [];
      return constructIn(drawn, whole, size) ?? kneeIn(marks, whole, size) ?? whole;
    },
    [session, planning, startsAt, film, otherKnee, pane.side, size],
  );
  const { area, view, setView } = useOpenView({ size, mirrored, begin });
  const { lead, apart } = useLinkedView(pane, view, setView);
  const [grey, setGrey, startGrey] = useGrey(loaded.film?.about.window);
  const isShown = view !== null && grey !== null;
  // The canvas within has been painted by now.
  useLayoutEffect(() => {
    if (isShown && loaded.film) noteFirstSight(loaded.film);
  }, [isShown, loaded.film]);
  return (
    <div className="film" ref={area}>
      {view && loaded.film && grey && startGrey ? (
        <OnFilm
          pane={pane}
          levels={loaded.film.levels}
          apart={apart}
          size={size}
          range={loaded.film.about.most - loaded.film.about.least}
          startGrey={startGrey}
          view={view}
          setView={lead}
          grey={grey}
          setGrey={setGrey}
        />
      ) : (
        <p className="film-waiting" role="status">
          {loaded.fault ?? 'Film is being loaded …'}
        </p>
      )}
    </div>
  );
}
