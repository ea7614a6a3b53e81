import type { Side } from '@gapline/core/landmarks/side.ts';
import { useState } from 'react';
import { useDesk, useDeskState, useSession } from '../case/desk.tsx';
import { sidesOn } from '../case/marking.ts';
import { tabWord } from '../film/tab-word.ts';
import { Conflicts } from '../marking/Conflicts.tsx';
import { MarkList } from '../marking/MarkList.tsx';
import { MarksHistory } from '../marking/MarksHistory.tsx';
import { NextMark } from '../marking/NextMark.tsx';
import { Offers } from '../marking/Offers.tsx';
import { setPerson, usePerson } from '../marking/person.ts';
import { SecondMarking } from '../marking/SecondMarking.tsx';
import { SelectedMark } from '../marking/SelectedMark.tsx';
import { Typed } from '../parts/fields.tsx';
import { sideWord } from '../parts/words.ts';
import { isStack } from '../stack/stack-film.ts';

/** What to mark next, where it lies, what can be found by itself, and everything marked on the shown film. */
export function MarksStep() {
  const { state } = useDesk();
  const films = useSession((s) => s.shown.films);
  const caseSide = useSession((s) => s.shown.side);
  const [first] = useDeskState((s) => s.films);
  const snaps = useDeskState((s) => s.snaps);
  const person = usePerson();
  const film = films.find((f) => f.id === first);
  const [wanted, setWanted] = useState<Side | null>(null);
  if (!film) return <p>Marks need a film.</p>;
  const sides = sidesOn(film, caseSide);
  const side = wanted && sides.includes(wanted) ? wanted : (sides[0] ?? caseSide);
  return (
    <>
      <Conflicts />
      <p className="marks-on">
        On: <strong>{tabWord(film, films)}</strong>
        {sides.length > 1 && (
          <span className="sides is-small">
            {sides.map((one) => (
              <button key={one} type="button" aria-pressed={one === side} onClick={() => setWanted(one)}>
                {sideWord(one)} leg
              </button>
            ))}
          </span>
        )}
      </p>
      <NextMark film={film} side={side} />
      <SelectedMark />
      {/* What looks at one picture, and what places a second time, know nothing of slices. */}
      {!isStack(film) && (
        <>
          <label className="choice">
            <input type="checkbox" checked={snaps} onChange={(e) => state.setState({ snaps: e.target.checked })} />
            <span>A press goes to the nearest edge</span>
          </label>
          <Offers film={film} side={side} />
        </>
      )}
      <MarkList film={film} side={side} />
      {!isStack(film) && <SecondMarking film={film} side={side} />}
      <MarksHistory />
      <Typed
        label="Marked by"
        type="text"
        hint="Stands beside every change made in this window. A name, no proof."
        shown={person}
        commit={(text) => {
          setPerson(text);
          return null;
        }}
      />
    </>
  );
}
