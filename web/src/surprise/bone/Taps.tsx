import { useId } from 'react';
import { NumberLine } from '../../work-up/inputs.tsx';
import type { Slot } from '../../work-up/slot.ts';

interface Props {
  readonly label: string;
  readonly unit: string;
  /** Values that one press enters; any other is typed. */
  readonly values: readonly number[];
  readonly slot: Slot<number>;
}

/** A number by one press, also with a gloved finger, or typed where none of the offered ones is it. */
export function Taps({ label, unit, values, slot }: Props) {
  const id = useId();
  return (
    <div className="taps">
      <span className="taps-label" id={id}>
        {label}
      </span>
      <fieldset className="taps-row" aria-labelledby={id}>
        {values.map((value) => (
          <button
            key={value}
            type="button"
            aria-pressed={slot.value === value}
            aria-label={`${label} ${value} ${unit}`}
            onClick={() => slot.set(slot.value === value ? undefined : value)}
          >
            {value}
          </button>
        ))}
      </fieldset>
      <NumberLine label={label} quiet unit={unit} placeholder="not known" slot={slot} />
    </div>
  );
}
