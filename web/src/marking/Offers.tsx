import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useState } from 'react';
import { useDesk, useDeskState, usePlanning, useSession } from '../case/desk.tsx';
import { loadFilm } from '../film/film-shelf.ts';
import { showWithTool } from '../film/show-with-tool.ts';
import { faultText } from '../parts/fault-text.ts';
import { number } from '../parts/words.ts';
import { asksOf } from './asks-of.ts';
import { lookOnFilm } from './look-on-film.ts';
import { offersOf } from './offers-of.ts';
import { type Offering, offeredNow, refuseOffer, takeOffer } from './offers-tool.ts';
import type { Ask, SearchAnswer } from './search.ts';

interface Props {
  readonly film: CaseFilm;
  readonly side: Side;
}

const ASK_WORDS: Readonly<Record<Ask['is'], string>> = {
  ball: 'Calibration ball',
  head: 'Femoral head',
  components: 'Components',
  canal: 'Canal',
};

/** Help that proposes and never decides: what is found on the film is offered dashed, one thing after the other. */
export function Offers({ film, side }: Props) {
  const { session, state } = useDesk();
  const file = useSession((s) => s.shown);
  const calibration = usePlanning((s) => s.plan.films.find((f) => f.id === film.id)?.calibration);
  const tool = useDeskState((s) => s.tool);
  const [said, setSaid] = useState<readonly string[]>([]);
  const [looking, setLooking] = useState(false);
  const asks = asksOf({ file, film, side, calibration });

  const look = async (): Promise<void> => {
    if (!film.sha256) return setSaid(['The picture of this film is not on this machine.']);
    setLooking(true);
    setSaid([]);
    try {
      const [level] = (await loadFilm(film.sha256)).levels;
      if (!level) return;
      const answers = await lookOnFilm(level, asks, (done) => setSaid([`${done} of ${asks.length} looked for …`]));
      const now = session.store.getState().shown;
      const offers = answers.flatMap((a) => (a.ok ? offersOf(a.found, { film, side }, now) : []));
      setSaid(notFound(answers));
      if (offers.length > 0) {
        state.setState({ guided: false });
        showWithTool(state, { is: 'offers', film: film.id, offers, at: 0, moved: { x: 0, y: 0 } });
      }
    } catch (reason) {
      setSaid([faultText(reason)]);
    } finally {
      setLooking(false);
    }
  };

  if (tool?.is === 'offers' && tool.film === film.id) return <Offered tool={tool} />;
  return (
    <div className="offers">
      <button type="button" disabled={looking || asks.length === 0} onClick={() => void look()}>
        {looking ? 'Looking …' : 'Look for what can be found'}
      </button>
      <div role="status">
        {said.map((line) => (
          <p key={line} className="table-note">
            {line}
          </p>
        ))}
      </div>
    </div>
  );
}

const notFound = (answers: readonly SearchAnswer[]): readonly string[] => [
  ...new Set(
    answers.flatMap((a) => {
      if (!a.ok) return [`${ASK_WORDS[a.ask]}: ${a.reason.message}`];
      return a.found.is === 'ball' && a.found.found.length === 0 ? ['Calibration ball: none was seen.'] : [];
    }),
  ),
];

/** What is offered now, with what its confidence rests on. */
function Offered({ tool }: { readonly tool: Offering }) {
  const desk = useDesk();
  const offer = offeredNow(tool);
  if (!offer) return null;
  return (
    <fieldset className="offered-now">
      <legend>
        Proposed, {tool.at + 1} of {tool.offers.length}
      </legend>
      <p>
        <strong>{offer.label}</strong>
      </p>
      <p className="confidence">
        Confidence {number(100 * offer.confidence, '%')} %{offer.confident ? '' : ', low: look closely'}
      </p>
      <ul>
        {offer.restsOn.slice(0, 3).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <div className="row">
        <button type="button" className="is-main" onClick={() => takeOffer(desk)}>
          Take it
        </button>
        <button type="button" onClick={() => refuseOffer(desk)}>
          Leave it
        </button>
        <button type="button" onClick={() => desk.state.setState({ tool: null, selected: null })}>
          Stop
        </button>
      </div>
      <small>
        On the film: Enter takes it, Escape leaves it, arrow keys move it; moved, it counts as marked by hand.
      </small>
    </fieldset>
  );
}
