import { choicesByHand, nextAugment, nextByHand, STEP_MM } from '@gapline/core/gaps/pinned/next-by-hand.ts';
import { pinInWords, pinsOfConstruct } from '@gapline/core/gaps/pinned/pin-of-construct.ts';
import { isLengthPin, PINS, type PinId, type Pinned, pinsIn } from '@gapline/core/gaps/pinned/pinned.ts';
import { useState } from 'react';
import { type Desk, useDesk, useDeskState, usePlanning, useSession } from '../case/desk.tsx';
import { showWithTool } from '../film/show-with-tool.ts';
import { number, VIEW_WORDS } from '../parts/words.ts';
import { fix, type InReach, inReach, labelOf, pinnedIn, release } from './by-hand.ts';
import { filmsToMoveOn } from './construct-on-film.ts';
import { tenth } from './hold.ts';

/** What a person fixes of the construct, what it costs against the free optimum, and how it is released. */
export function ConstructByHand() {
  const fixed = pinsIn(useSession((s) => pinnedIn(s.shown)));
  const construct = usePlanning((s) => s.plan.construct);
  const cost = construct.kind === 'solved' ? construct.answer.pinned : undefined;
  if (fixed.length === 0 && construct.kind !== 'solved') return null;
  const line =
    fixed.length === 0
      ? 'Nothing fixed by hand'
      : `${fixed.length} fixed by hand${cost ? `, costing ${number(cost.more, '1')} more than the free optimum` : ''}`;
  return (
    <section className="hand-fixed" aria-label="By hand">
      <MoveOnFilm />
      <details className="hand-fixed-list" open={fixed.length > 0}>
        <summary>{line}</summary>
        <Pins />
        <Terms />
        {fixed.length > 1 && <ReleaseAll ids={fixed} />}
      </details>
    </section>
  );
}

function MoveOnFilm() {
  const { state } = useDesk();
  const films = usePlanning(filmsToMoveOnShared);
  const all = useSession((s) => s.shown.films);
  const moving = useDeskState((s) => (s.tool?.is === 'construct' ? s.tool.film : null));
  const here = films === '' ? [] : films.split('\n');
  if (here.length === 0) return null;
  return (
    <p className="hand-films">
      {here.map((film) => {
        const view = all.find((f) => f.id === film)?.view;
        const words = view ? VIEW_WORDS[view] : film;
        const isOn = moving === film;
        return (
          <button
            key={film}
            type="button"
            aria-pressed={isOn}
            onClick={() => {
              if (isOn) return state.setState({ tool: null, selected: null });
              state.setState({ construct: 0, onTrial: null });
              showWithTool(state, { is: 'construct', film, hold: null });
            }}
          >
            {isOn ? `Moving it: ${words}` : `Move it: ${words}`}
          </button>
        );
      })}
    </p>
  );
}

/** One text, so that nothing is drawn again while the same films are there. */
const filmsToMoveOnShared = (planning: Parameters<typeof filmsToMoveOn>[0]): string =>
  filmsToMoveOn(planning).join('\n');

function Pins() {
  const planning = usePlanning((s) => s);
  const pinned = useSession((s) => pinnedIn(s.shown));
  const now = inReach(planning);
  const [stop, setStop] = useState<{ readonly id: PinId; readonly words: string } | null>(null);
  if (!now) return <Loose pinned={pinned} catalogue={planning.catalogue} />;
  const has = pinsOfConstruct(now.solved.construct, now.catalogue);
  const saves = planning.plan.construct.kind === 'solved' ? planning.plan.construct.answer.pinned?.lines : undefined;
  return (
    <ul className="pins">
      {PINS.map(({ id, label }) => {
        const isFixed = pinned[id] !== undefined;
        const saved = saves?.find((l) => l.id === id);
        return (
          <li key={id} className={isFixed ? 'is-fixed' : ''} data-pin={id}>
            <PinHead label={label} value={pinInWords(id, has, now.catalogue)} />
            <Steppers id={id} now={now} onStop={(words) => setStop(words === null ? null : { id, words })} />
            <FixOrRelease id={id} isFixed={isFixed} has={has} />
            {saved && (
              <span className="pin-cost">
                Fixed by hand; released: {saved.free}
                {saved.saves > 0 ? `, saves ${number(saved.saves, '1')}` : ', saves nothing'}
              </span>
            )}
            {stop?.id === id && (
              <span className="pin-stop" role="status">
                Stop: {stop.words}
              </span>
            )}
          </li>
        );
      })}
    </ul>
  );
}

function PinHead({ label, value }: { readonly label: string; readonly value: string }) {
  return (
    <span className="pin-head">
      <span className="pin-label">{label}</span>
      <span className="pin-value">{value}</span>
    </span>
  );
}

/** Without a construct only what is fixed is listed, to be released. */
function Loose({ pinned, catalogue }: { readonly pinned: Pinned; readonly catalogue: InReach['catalogue'] | null }) {
  return (
    <ul className="pins">
      {pinsIn(pinned).map((id) => (
        <li key={id} className="is-fixed" data-pin={id}>
          <PinHead label={labelOf(id)} value={catalogue ? pinInWords(id, pinned, catalogue) : ''} />
          <FixOrRelease id={id} isFixed has={pinned} />
        </li>
      ))}
    </ul>
  );
}

function FixOrRelease({ id, isFixed, has }: { readonly id: PinId; readonly isFixed: boolean; readonly has: Pinned }) {
  const desk = useDesk();
  const value = has[id];
  const as = isLengthPin(id) && typeof value === 'number' ? tenth(value) : value;
  return (
    <button
      type="button"
      className="pin-fix"
      aria-label={`${isFixed ? 'Release' : 'Fix'}: ${labelOf(id)}`}
      onClick={() => (isFixed ? release(desk, [id]) : fixNear(desk, { id, value, as }))}
    >
      {isFixed ? 'Release' : 'Fix'}
    </button>
  );
}

/** Fixes a length at its tenth of a millimetre; where a limit lies between, just as it is. */
function fixNear(
  desk: Desk,
  { id, value, as }: { readonly id: PinId; readonly value: unknown; readonly as: unknown },
): void {
  if (fix(desk, { [id]: as }) !== null) fix(desk, { [id]: value });
}

interface StepperProps {
  readonly id: PinId;
  readonly now: InReach;
  readonly onStop: (words: string | null) => void;
}

function Steppers({ id, now, onStop }: StepperProps) {
  if (id === 'distalAugmentsMm' || id === 'posteriorAugmentsMm' || id === 'tibialAugmentsMm')
    return (
      <span className="pin-steps">
        {(['medial', 'lateral'] as const).map((side) => (
          <Stepper key={side} what={`${labelOf(id)}, ${side}`} mark={side === 'medial' ? 'M' : 'L'} onStop={onStop}>
            {(way) => nextAugment(id, { side, way }, kneeOf(now))}
          </Stepper>
        ))}
      </span>
    );
  if (isLengthPin(id)) {
    const from = pinsOfConstruct(now.solved.construct, now.catalogue)[id];
    return (
      <span className="pin-steps">
        <Stepper what={labelOf(id)} onStop={onStop}>
          {(way) => ({ [id]: tenth(from + way * STEP_MM.usual) })}
        </Stepper>
      </span>
    );
  }
  if (choicesByHand(id, kneeOf(now)).length < 2) return null;
  return (
    <span className="pin-steps">
      <Stepper what={labelOf(id)} onStop={onStop}>
        {(way) => nextByHand(id, way, kneeOf(now))}
      </Stepper>
    </span>
  );
}

const kneeOf = ({ solved, catalogue, question }: InReach) => ({
  construct: solved.construct,
  catalogue,
  side: question.state.side,
});

function Stepper(props: {
  readonly what: string;
  readonly mark?: string;
  readonly onStop: (words: string | null) => void;
  readonly children: (way: 1 | -1) => Pinned | null;
}) {
  const desk = useDesk();
  const go = (way: 1 | -1): void => {
    const next = props.children(way);
    props.onStop(next ? fix(desk, next) : 'end of the catalogue');
  };
  return (
    <span className="pin-step">
      {props.mark && <span aria-hidden="true">{props.mark}</span>}
      <button type="button" aria-label={`${props.what}: less`} onClick={() => go(-1)}>
        −
      </button>
      <button type="button" aria-label={`${props.what}: more`} onClick={() => go(1)}>
        +
      </button>
    </span>
  );
}

/** Which terms of the cost the hand changed. */
function Terms() {
  const construct = usePlanning((s) => s.plan.construct);
  const cost = construct.kind === 'solved' ? construct.answer.pinned : undefined;
  if (!cost || cost.terms.length === 0) return null;
  return (
    <table className="pinned-terms">
      <caption>What the hand changes in the cost</caption>
      <thead>
        <tr>
          <th scope="col">Term</th>
          <th scope="col">By hand</th>
          <th scope="col">Free</th>
        </tr>
      </thead>
      <tbody>
        {cost.terms.map((t) => (
          <tr key={t.id}>
            <th scope="row">{t.label}</th>
            <td>{number(t.cost, '1')}</td>
            <td>{number(t.freeCost, '1')}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function ReleaseAll({ ids }: { readonly ids: readonly PinId[] }) {
  const desk = useDesk();
  return (
    <button type="button" onClick={() => release(desk, ids)}>
      Release all
    </button>
  );
}
