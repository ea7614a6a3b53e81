import type { Known } from '@gapline/core/measure/known.ts';
import { type KeyboardEvent, useId } from 'react';
import { useDesk } from '../case/desk.tsx';
import { type Slot, useSlot } from './slot.ts';
import { triKey } from './tri-keys.ts';

/** The words of the three answers; evidence says seen and not seen, everything else yes and no. */
interface Words<V extends string> {
  readonly yes: readonly [V, string];
  readonly no: readonly [V, string];
}

const YES_NO: Words<'yes' | 'no'> = { yes: ['yes', 'yes'], no: ['no', 'no'] };

interface ThreeProps<V extends string> {
  readonly label: string;
  readonly slot: Slot<V | 'unknown'>;
  readonly words: Words<V>;
  readonly hint?: string | undefined;
}

/**
 * Yes, no or not known, with one tab stop. Y, N and U answer and go on to the next line; left and right change the
 * answer, up and down move between lines. Not known is the absence of an answer, never a no.
 */
export function Three<V extends string>({ label, slot, words, hint }: ThreeProps<V>) {
  const id = useId();
  const answers: readonly (readonly [Known, V | undefined, string])[] = [
    ['yes', words.yes[0], words.yes[1]],
    ['no', words.no[0], words.no[1]],
    ['unknown', undefined, 'not known'],
  ];
  const now: Known = slot.value === words.yes[0] ? 'yes' : slot.value === words.no[0] ? 'no' : 'unknown';
  const answer = (to: Known): void => {
    if (to !== now) slot.set(answers.find(([name]) => name === to)?.[1]);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const wish = triKey(event.key, now);
    if (!wish) return;
    event.preventDefault();
    if (wish.answer) answer(wish.answer);
    goTo(event.currentTarget, { by: wish.move, answer: wish.move === 0 ? (wish.answer ?? now) : null });
  };
  return (
    <div className={`tri is-${now}`} role="radiogroup" aria-labelledby={`${id}-label`} onKeyDown={onKeyDown}>
      <span className="tri-label" id={`${id}-label`}>
        {label}
        {hint && <small> {hint}</small>}
      </span>
      <span className="tri-answers">
        {answers.map(([name, , text]) => (
          <label key={name} className={`tri-answer is-${name}${now === name ? ' is-chosen' : ''}`}>
            <input
              type="radio"
              name={id}
              value={name}
              checked={now === name}
              onChange={() => answer(name)}
              aria-label={text}
            />
            <span aria-hidden="true">{name === 'unknown' ? '?' : text}</span>
          </label>
        ))}
      </span>
    </div>
  );
}

/** Moves the focus to a line further on or back, among the three-way lines of the page in their order. */
function goTo(from: HTMLElement, { by, answer }: { readonly by: number; readonly answer: Known | null }): void {
  if (by === 0) {
    from.querySelector<HTMLInputElement>(`input[value="${answer}"]`)?.focus();
    return;
  }
  const all = [...document.querySelectorAll<HTMLElement>('.tri')].filter((line) => line.offsetParent !== null);
  const next = all[all.indexOf(from) + by];
  (next?.querySelector<HTMLInputElement>('input:checked') ?? next?.querySelector<HTMLInputElement>('input'))?.focus();
}

/** Yes, no or not known at one field of the case. */
export function Tri({
  label,
  at,
  hint,
}: {
  readonly label: string;
  readonly at: string;
  readonly hint?: string | undefined;
}) {
  const slot = useSlot<Known>(at);
  return <Three label={label} slot={slot} words={YES_NO} hint={hint} />;
}

interface TriListProps {
  /** Pointer of the group, such as `/workUp/history/charlson`. */
  readonly at: string;
  readonly name: string;
  readonly items: readonly { readonly id: string; readonly label: string }[];
}

/** A list of yes-or-no questions, with one press to answer no to all that are still open. */
export function TriList({ at, name, items }: TriListProps) {
  const { session } = useDesk();
  const group = useSlot<Readonly<Record<string, Known>>>(at).value ?? {};
  const open = items.filter((item) => (group[item.id] ?? 'unknown') === 'unknown');
  const restIsNo = (): void =>
    session.commit(
      open.map((item) => ({ kind: 'set', field: `${at}/${item.id}`, value: 'no' })),
      `${name}: the rest answered no`,
    );
  return (
    <div className="tri-list">
      {items.map((item) => (
        <Tri key={item.id} label={item.label} at={`${at}/${item.id}`} />
      ))}
      {open.length > 0 && (
        <button type="button" className="rest-no" onClick={restIsNo}>
          No to the other {open.length}
          <span className="unseen"> of {name}</span>
        </button>
      )}
    </div>
  );
}
