interface Props {
  readonly label: string;
  readonly value: string;
  /** Absent = there is none thinner or thicker. */
  readonly less: (() => void) | null;
  readonly more: (() => void) | null;
  readonly words: readonly [less: string, more: string];
}

/** One part changed by steps, with buttons large enough for a gloved finger. */
export function Stepper({ label, value, less, more, words }: Props) {
  return (
    <div className="stepper">
      <span className="stepper-label">{label}</span>
      <span className="stepper-row">
        <button type="button" disabled={!less} onClick={less ?? undefined}>
          <span aria-hidden="true">−</span>
          <span className="unseen">
            {label}: {words[0]}
          </span>
        </button>
        <output className="stepper-value" aria-live="polite">
          {value}
        </output>
        <button type="button" disabled={!more} onClick={more ?? undefined}>
          <span aria-hidden="true">+</span>
          <span className="unseen">
            {label}: {words[1]}
          </span>
        </button>
      </span>
    </div>
  );
}
