import { useId, useState } from 'react';
import { useDesk, useSession } from '../case/desk.tsx';
import { faultText } from '../parts/fault-text.ts';
import { NameCauses } from './Causes.tsx';
import { gateLine } from './gate-line.ts';
import { InfectionDecision } from './InfectionDecision.tsx';
import { TextArea } from './inputs.tsx';
import { useReading } from './reading.tsx';
import { useSlot } from './slot.ts';
import { writeLetter } from './wire.ts';

/** The gate at the foot: what is missing, what is settled, and the way out by referral. */
export function Gate() {
  const { gate } = useReading();
  return (
    <section className={`gate is-${gate.ready ? 'ready' : 'closed'}`} aria-labelledby="gate-title" id="gate">
      <h2 id="gate-title" tabIndex={-1}>
        <GateShape ready={gate.ready} />
        {gateLine(gate)}
      </h2>
      <div className="gate-columns">
        <div>
          {gate.open.length > 0 && (
            <>
              <h3>Missing, what would change most first</h3>
              <ol className="gate-open">
                {gate.open.map((o) => (
                  <li key={o.what}>
                    {o.what} <small>{o.wouldChange}</small>
                  </li>
                ))}
              </ol>
            </>
          )}
          <Unexplained />
          <Complexity />
        </div>
        <div>
          <h3>Infection</h3>
          <InfectionDecision />
          <h3>Cause, named by the surgeon</h3>
          <NameCauses />
          <h3>Referral</h3>
          <Letter />
        </div>
      </div>
    </section>
  );
}

/** Open bar or closed bar: a shape, not only a colour. */
export function GateShape({ ready }: { readonly ready: boolean }) {
  return (
    <svg className={`gate-shape is-${ready ? 'ready' : 'closed'}`} viewBox="0 0 24 16" aria-hidden="true">
      <path d="M3 2v12M21 2v12" />
      {ready ? <path d="M3 8 13 1" /> : <path d="M3 8h18" />}
    </svg>
  );
}

/** Nobody can say why the knee hurts: what is known about operating all the same. */
function Unexplained() {
  const { gate } = useReading();
  const slot = useSlot<string>('/workUp/overrideReason');
  if (!gate.referralProposed) return null;
  return (
    <div className="unexplained">
      <h3>Unexplained pain: refer, do not revise</h3>
      <p>
        After exploring 27 knees for unexplained pain 41 % were good or excellent (Mont 1996, from memory); later
        reviews do not recommend revision without a cause. A second opinion or a pain clinic is proposed.
      </p>
      <TextArea
        label="Going on all the same needs a written reason; it is kept"
        slot={slot}
        hint={gate.overridden ? 'Overridden with the reason above.' : undefined}
      />
    </div>
  );
}

function Complexity() {
  const { complexity: c } = useReading();
  return (
    <div className="complexity">
      <h3>Complexity: level {c.level} of 3</h3>
      <p className="said-line">
        A prompt of our own, no published checklist.{' '}
        {c.hits.map((h) => `${h.domain} ${h.level}: ${h.because}`).join('; ') || 'Nothing raises it.'}
        {c.discussAsThree && ' Two at level 2: discuss as level 3.'}
        {c.notKnown.length > 0 && ` Not known: ${c.notKnown.join(', ')}.`}
      </p>
      {c.meetingAsked && (
        <p>
          <strong>A regional meeting is asked for</strong> before sets are ordered.
        </p>
      )}
    </div>
  );
}

/** The work-up on one page as a letter; whether it names the patient is chosen each time. */
function Letter() {
  const { session } = useDesk();
  const caseId = useSession((s) => s.shown.id);
  const [identity, setIdentity] = useState(false);
  const [to, setTo] = useState('');
  const [said, setSaid] = useState<string | null>(null);
  const [address, setAddress] = useState<string | null>(null);
  const id = useId();
  const write = async (): Promise<void> => {
    // Opened within the press, for a window opened later is blocked.
    const tab = window.open('', '_blank');
    setSaid('The letter is being written …');
    try {
      if (!(await session.settled())) throw new Error('not saved');
      const letter = await writeLetter(caseId, { identity, ...(to.trim() === '' ? {} : { to: to.trim() }) });
      const made = URL.createObjectURL(letter);
      setAddress((before) => {
        if (before) URL.revokeObjectURL(before);
        return made;
      });
      if (tab) tab.location.href = made;
      setSaid(null);
    } catch (reason) {
      tab?.close();
      setSaid(faultText(reason));
    }
  };
  return (
    <div className="letter">
      <label className="line-field" htmlFor={`${id}-to`}>
        To
        <input id={`${id}-to`} type="text" value={to} onChange={(event) => setTo(event.target.value)} />
      </label>
      <label className="choice">
        <input type="checkbox" checked={identity} onChange={(event) => setIdentity(event.target.checked)} />
        <span>Name the patient on it</span>
      </label>
      <div className="buttons">
        <button type="button" className="is-main" onClick={() => void write()}>
          Letter as PDF
        </button>
        {address && (
          <a className="button" href={address} download="letter.pdf">
            Save letter
          </a>
        )}
      </div>
      {said && <p role="status">{said}</p>}
    </div>
  );
}
