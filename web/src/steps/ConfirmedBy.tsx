import { useState } from 'react';

interface Confirmation {
  readonly by: string;
  /** YYYY-MM-DD. */
  readonly on: string;
}

interface Props {
  /** What was confirmed already; absent = not yet. */
  readonly given: Confirmation | undefined;
  /** Begins the line that tells it, e.g. "Side confirmed". */
  readonly told: string;
  /** Whether a confirmation is wanted. */
  readonly asked: boolean;
  readonly button: string;
  readonly confirm: (given: Confirmation) => void;
}

/** Somebody answers with a name for what a film shows; told once it is given, and asked for only where it is wanted. */
export function ConfirmedBy({ given, told, asked, button, confirm }: Props) {
  const [by, setBy] = useState('');
  if (given)
    return (
      <p className="confirmed">
        {told} by {given.by}, {given.on}
      </p>
    );
  if (!asked) return null;
  return (
    <form
      className="confirm-side"
      onSubmit={(event) => {
        event.preventDefault();
        if (by.trim() !== '') confirm({ by: by.trim(), on: new Date().toISOString().slice(0, 10) });
      }}
    >
      <label>
        <span>Your name or initials</span>
        <input type="text" value={by} required onChange={(event) => setBy(event.target.value)} />
      </label>
      <button type="submit">{button}</button>
    </form>
  );
}
