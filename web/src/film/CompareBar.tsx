import { useDesk, useDeskState, useSession } from '../case/desk.tsx';
import { ANCHORS, type AnchorId, sideOn } from './anchor.ts';
import { BesideSelect } from './BesideSelect.tsx';
import { datesOf, likelyBone } from './before-after.ts';
import { filmOfOtherKnee } from './panes.ts';
import { tabWord } from './tab-word.ts';
import type { Viewing } from './viewing.ts';

/** Films against one another: how many stand side by side, what moves together, the other knee, before and after. */
export function CompareBar() {
  const { state } = useDesk();
  const films = useSession((s) => s.shown.films);
  const shown = useDeskState((s) => s.films);
  const viewing = useDeskState((s) => s.viewing);
  const change = (next: Partial<Viewing>): void => state.setState((s) => ({ viewing: { ...s.viewing, ...next } }));
  const first = films.find((f) => f.id === shown[0]);
  const other = first && filmOfOtherKnee(films, first);
  const wiping = viewing.wipe !== null;
  return (
    <fieldset className="film-tabs compare-bar">
      <legend className="unseen">Films compared</legend>
      {!wiping && (
        <div className="film-pair">
          {shown.length > 1 && films.length > 2 && <BesideSelect place={2} />}
          {shown.length > 2 && films.length > 3 && <BesideSelect place={3} />}
          <label>
            <span className="unseen">Films that move together</span>
            <select value={viewing.link} onChange={(e) => change({ link: e.target.value as Viewing['link'] })}>
              <option value="none">Not linked</option>
              <option value="view">Linked: same view</option>
              <option value="date">Linked: same date</option>
            </select>
          </label>
          {viewing.link !== 'none' && (
            <label>
              <span className="unseen">Linked films are held together by</span>
              <select value={viewing.anchor} onChange={(e) => change({ anchor: e.target.value as AnchorId })}>
                {ANCHORS.map((a) => (
                  <option key={a.id} value={a.id}>
                    {a.label}
                  </option>
                ))}
              </select>
            </label>
          )}
          <button
            type="button"
            aria-pressed={viewing.otherKnee}
            disabled={!other}
            title={
              other ? 'The other knee, mirrored, beside the first film' : 'No film of this view shows the other knee'
            }
            onClick={() => change({ otherKnee: !viewing.otherKnee })}
          >
            Other knee mirrored
          </button>
        </div>
      )}
      <WipeChoice />
    </fieldset>
  );
}

/** Turns before and after on and off, and chooses the two dates. */
function WipeChoice() {
  const { session, state } = useDesk();
  const films = useSession((s) => s.shown.films);
  const shown = useDeskState((s) => s.films);
  const wipe = useDeskState((s) => s.viewing.wipe);
  const dates = datesOf(films);
  const set = (value: Viewing['wipe']): void =>
    state.setState((s) => ({ viewing: { ...s.viewing, wipe: value }, placing: null, tool: null, selected: null }));
  const begin = (d: (typeof dates)[number] | undefined): void => {
    const { side, marks } = session.store.getState().shown;
    if (d)
      set({
        earlier: d.earlier.id,
        later: d.later.id,
        bone: likelyBone(marks, d, sideOn(d.later, side)),
        chosen: null,
      });
  };
  const nearest = dates.find((d) => d.later.id === shown[0] || d.earlier.id === shown[0]) ?? dates[0];
  return (
    <div className="film-pair">
      <button
        type="button"
        aria-pressed={wipe !== null}
        disabled={wipe === null && !nearest}
        title={nearest ? 'Two dates of one view laid over one another' : 'No view of one side has films of two dates'}
        onClick={() => (wipe ? set(null) : begin(nearest))}
      >
        Before / after
      </button>
      {wipe && dates.length > 1 && (
        <label>
          <span className="unseen">Which two dates</span>
          <select
            value={`${wipe.earlier} ${wipe.later}`}
            onChange={(e) => begin(dates.find((d) => `${d.earlier.id} ${d.later.id}` === e.target.value))}
          >
            {dates.map((d) => (
              <option key={`${d.earlier.id} ${d.later.id}`} value={`${d.earlier.id} ${d.later.id}`}>
                {tabWord(d.later, films)}: {d.earlier.takenOn} and {d.later.takenOn}
              </option>
            ))}
          </select>
        </label>
      )}
    </div>
  );
}
