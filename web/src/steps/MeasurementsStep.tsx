import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import { otherSide } from '@gapline/core/landmarks/side.ts';
import type { Measurement } from '@gapline/core/limb/measurement.ts';
import { Fragment, memo, useState } from 'react';
import { useDesk, usePlanning, useSession } from '../case/desk.tsx';
import { CompareDates } from '../compare/CompareDates.tsx';
import { InterfaceSpans } from '../compare/InterfaceSpans.tsx';
import { groupsOf } from '../compare/measurement-groups.ts';
import { number, SCALE_WORDS, sideWord, spread, withUnit } from '../parts/words.ts';

/** Every measurement with spread, unit and sign; each opens its reason. */
export function MeasurementsStep() {
  const measurements = usePlanning((s) => s.plan.measurements);
  const side = useSession((s) => s.shown.side);
  const own = measurements.filter((m) => m.side === side);
  const other = measurements.filter((m) => m.side !== side);
  return (
    <>
      <MeasurementTable measurements={own} title={`${sideWord(side)} knee`} />
      <InterfaceSpans />
      <CompareDates />
      {other.length > 0 && (
        <details className="other-side">
          <summary>The other side, {sideWord(otherSide(side)).toLowerCase()}</summary>
          <MeasurementTable measurements={other} title={`${sideWord(otherSide(side))} knee`} />
        </details>
      )}
    </>
  );
}

function MeasurementTable({
  measurements,
  title,
}: {
  readonly measurements: readonly Measurement[];
  readonly title: string;
}) {
  const measured = measurements.filter((m) => m.value !== null);
  const waiting = measurements.filter((m) => m.value === null);
  return (
    <>
      {measured.length > 0 && (
        <section className="measured-groups" aria-label={`Measured, ${title}`}>
          {groupsOf(measured).map((group) => (
            <Fragment key={group.title}>
              <h3>{group.title}</h3>
              <ul className="measured" aria-label={`${group.title}, ${title}`}>
                {group.lines.map((m) => (
                  <Line key={`${m.id} ${m.film ?? ''} ${m.variant ?? ''}`} m={m} />
                ))}
              </ul>
            </Fragment>
          ))}
        </section>
      )}
      {waiting.length > 0 && (
        <details className="waiting" open={measured.length === 0}>
          <summary>{waiting.length} not measured, and why</summary>
          <ul>
            {waiting.map((m) => (
              <li key={`${m.id} ${m.variant ?? ''}`}>
                <strong>{m.label}</strong>
                <span>{whyNot(m)}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function whyNot(m: Measurement): string {
  if (m.missing && m.missing.length > 0) {
    return `not marked: ${m.missing.map((id) => landmark(id).label.toLowerCase()).join('; ')}`;
  }
  return m.refused ? `${m.refused.message} ${m.refused.mend ?? ''}` : 'no value';
}

/** One measurement; pointed at, it stands out on the film; pressed, it opens its reason. */
const Line = memo(function Line({ m }: { readonly m: Measurement }) {
  const { state } = useDesk();
  const [open, setOpen] = useState(false);
  const pointAt = (on: boolean): void =>
    state.setState({ pointedAt: on ? { layer: m.id, landmarks: m.inputs } : null });
  return (
    <li className={m.flags.length > 0 ? 'has-flags' : undefined}>
      <button
        type="button"
        className="measured-line"
        aria-expanded={open}
        data-measurement={m.id}
        onPointerEnter={() => pointAt(true)}
        onPointerLeave={() => pointAt(false)}
        onFocus={() => pointAt(true)}
        onBlur={() => pointAt(false)}
        onClick={() => setOpen(!open)}
      >
        <span className="measured-label">
          {m.label}
          {m.flags.length > 0 && <span className="flag-shape"> ▲ caution</span>}
        </span>
        <span className="measured-value">{m.value === null ? '–' : withUnit(m.value, m.unit)}</span>
        <span className="measured-spread">{spread(m.sd, m.unit)}</span>
      </button>
      {open && <Reason m={m} />}
    </li>
  );
});

function Reason({ m }: { readonly m: Measurement }) {
  const film = useSession((s) => s.shown.films.find((f) => f.id === m.film));
  return (
    <dl className="reason">
      <dt>Sign</dt>
      <dd>{m.sign}</dd>
      {m.normal && (
        <>
          <dt>Normal</dt>
          <dd>{m.normal}</dd>
        </>
      )}
      {m.variant && (
        <>
          <dt>How</dt>
          <dd>{m.variant}</dd>
        </>
      )}
      {m.sd !== null && (
        <>
          <dt>Spread</dt>
          <dd>
            standard deviation {number(m.sd, m.unit === 'deg' ? '1' : m.unit)} {m.unit === '1' ? '' : m.unit}; ± is the
            95 % interval
          </dd>
        </>
      )}
      <dt>From</dt>
      <dd>{m.inputs.length > 0 ? m.inputs.map((id) => landmark(id).label).join('; ') : 'the traced canal'}</dd>
      <dt>Film</dt>
      <dd>
        {film?.file ?? 'none'}; {SCALE_WORDS[m.scale]}
      </dd>
      <dt>Rule</dt>
      <dd>{m.rule}</dd>
      <dt>Source</dt>
      <dd>{m.source}</dd>
      {m.flags.length > 0 && (
        <>
          <dt>Caution</dt>
          <dd>
            {m.flags.map((f) => (
              <span key={f.code} className="flag-text">
                {f.message} {f.mend}
              </span>
            ))}
          </dd>
        </>
      )}
    </dl>
  );
}
