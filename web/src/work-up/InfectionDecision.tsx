import type { InfectionVerdict } from '@gapline/core/infection/work-up.ts';
import type { InfectionDecision as Decision } from '@gapline/core/work-up/work-up.ts';
import { useId, useState } from 'react';
import { today, useReading } from './reading.tsx';
import { useSlot } from './slot.ts';

export const VERDICT_WORDS: Readonly<Record<InfectionVerdict, string>> = {
  excluded: 'excluded',
  confirmed: 'confirmed',
  likely: 'likely',
  'not-classifiable': 'not classifiable',
  'not-assessed': 'not assessed',
};

const CHOICES = ['excluded', 'likely', 'confirmed', 'not-classifiable'] as const;

/** What the surgeon settles after reading the definitions; it stands beside them and changes none. */
export function InfectionDecision() {
  const { infection } = useReading();
  const slot = useSlot<Decision>('/workUp/infectionDecision');
  const [standing, setStanding] = useState<Decision['standing'] | ''>('');
  const [by, setBy] = useState('');
  const [reason, setReason] = useState('');
  const id = useId();
  const ready = standing !== '' && by.trim() !== '' && reason.trim() !== '';
  return (
    <div className="decision">
      <p>
        By the definitions shown first: <strong>{VERDICT_WORDS[infection.standing]}</strong>.
      </p>
      {slot.value ? (
        <p>
          The surgeon: <strong>{VERDICT_WORDS[slot.value.standing]}</strong>, {slot.value.by}, {slot.value.on}:{' '}
          {slot.value.reason}{' '}
          <button type="button" className="as-link" onClick={() => slot.set(undefined)}>
            Take back
          </button>
        </p>
      ) : (
        <details className="fold">
          <summary>
            <h3>Settle it yourself</h3>
          </summary>
          <form
            className="pairs"
            onSubmit={(event) => {
              event.preventDefault();
              if (standing !== '' && ready) slot.set({ standing, by: by.trim(), on: today(), reason: reason.trim() });
            }}
          >
            <label className="line-field" htmlFor={`${id}-is`}>
              Infection is
              <select
                id={`${id}-is`}
                value={standing}
                onChange={(event) => setStanding(event.target.value as Decision['standing'] | '')}
              >
                <option value="">choose</option>
                {CHOICES.map((c) => (
                  <option key={c} value={c}>
                    {VERDICT_WORDS[c]}
                  </option>
                ))}
              </select>
            </label>
            <label className="line-field" htmlFor={`${id}-by`}>
              Name
              <input id={`${id}-by`} type="text" value={by} onChange={(event) => setBy(event.target.value)} />
            </label>
            <label className="line-field is-wide" htmlFor={`${id}-why`}>
              Reason
              <input id={`${id}-why`} type="text" value={reason} onChange={(event) => setReason(event.target.value)} />
            </label>
            <button type="submit" disabled={!ready}>
              Settle
            </button>
          </form>
        </details>
      )}
    </div>
  );
}
