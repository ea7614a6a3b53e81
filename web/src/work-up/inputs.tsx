import { type ReactNode, useEffect, useId, useRef, useState } from 'react';
import { useDesk } from '../case/desk.tsx';
import type { Slot } from './slot.ts';

interface LineProps {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly unit?: string | undefined;
  readonly fault?: string | null | undefined;
  /** Label for the reader of the screen only, where the column heading names the field. */
  readonly quiet?: boolean;
  readonly list?: string | undefined;
  readonly placeholder?: string | undefined;
}

interface TypedLineProps<T> extends LineProps {
  readonly slot: Slot<T>;
  /** What is typed as a value; undefined where it is none. */
  readonly read: (text: string) => T | undefined;
  readonly show: (value: T) => string;
  readonly wants: string;
  readonly numeric?: boolean;
}

/**
 * A line that is typed into. What is typed counts at once; Enter or leaving the line makes it one change, Escape
 * puts back what stood there.
 */
function TypedLine<T>({ slot, read, show, wants, numeric = false, ...line }: TypedLineProps<T>) {
  const shown = slot.value === undefined ? '' : show(slot.value);
  const [text, setText] = useState(shown);
  const [said, setSaid] = useState<string | null>(null);
  const before = useRef(shown);
  const typing = useRef(false);
  const id = useId();
  const { session } = useDesk();
  useEffect(() => {
    if (!typing.current) setText(shown);
  }, [shown]);
  const give = (typed: string, how: 'draft' | 'take'): void => {
    const trimmed = typed.trim();
    const value = trimmed === '' ? undefined : read(trimmed);
    const refused = trimmed !== '' && value === undefined ? `${line.label} wants ${wants}.` : slot.set(value, how);
    // Half a number or half a day is no fault yet: it is told once the line is left.
    if (refused !== null) session.dropDraft();
    setSaid(how === 'take' ? refused : null);
  };
  const putBack = (): void => {
    typing.current = false;
    session.dropDraft();
    setText(before.current);
    setSaid(null);
  };
  const finish = (): void => {
    if (!typing.current) return;
    if (text.trim() === before.current) {
      putBack();
      return;
    }
    typing.current = false;
    give(text, 'take');
  };
  const fault = said ?? line.fault ?? null;
  const more = fault ?? line.hint;
  return (
    <div className={`line-field${numeric ? ' is-number' : ''}`}>
      <label htmlFor={id} className={line.quiet ? 'unseen' : undefined}>
        {line.label}
      </label>
      <span className="field-box">
        <input
          id={id}
          type="text"
          value={text}
          list={line.list}
          autoComplete="off"
          inputMode={numeric ? 'decimal' : undefined}
          placeholder={line.placeholder}
          aria-invalid={fault !== null}
          aria-describedby={more ? `${id}-more` : undefined}
          onChange={(event) => {
            if (!typing.current) before.current = shown;
            typing.current = true;
            setText(event.target.value);
            give(event.target.value, 'draft');
          }}
          onBlur={finish}
          onKeyDown={(event) => {
            if (event.key === 'Enter') finish();
            if (event.key === 'Escape' && typing.current) putBack();
          }}
        />
        {line.unit && <span className="unit">{line.unit}</span>}
      </span>
      {more && (
        <small id={`${id}-more`} className={fault ? 'field-fault' : undefined}>
          {more}
        </small>
      )}
    </div>
  );
}

/** A plain number as people type it: comma or point, true minus or hyphen. */
export function plainNumber(text: string): number | undefined {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  const value = plain === '' ? Number.NaN : Number(plain);
  return Number.isFinite(value) ? value : undefined;
}

export const NumberLine = ({ slot, ...line }: LineProps & { readonly slot: Slot<number> }) => (
  <TypedLine slot={slot} {...line} read={plainNumber} show={String} wants="a plain number" numeric />
);

export const TextLine = ({ slot, ...line }: LineProps & { readonly slot: Slot<string> }) => (
  <TypedLine slot={slot} {...line} read={(text) => text} show={(text) => text} wants="text" />
);

/** A day, typed as 2026-03-09; a month or a year alone where `partly`. Anything else is kept and marked by its reader. */
export const DayLine = ({ slot, ...line }: LineProps & { readonly slot: Slot<string> }) => (
  <TextLine slot={slot} placeholder="YYYY-MM-DD" {...line} />
);

/** Longer text: taken on leaving it. */
export function TextArea({ slot, label, hint }: LineProps & { readonly slot: Slot<string> }) {
  const [text, setText] = useState(slot.value ?? '');
  const [fault, setFault] = useState<string | null>(null);
  const id = useId();
  useEffect(() => setText(slot.value ?? ''), [slot.value]);
  return (
    <div className="line-field is-area">
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        rows={2}
        value={text}
        aria-describedby={fault || hint ? `${id}-more` : undefined}
        onChange={(event) => setText(event.target.value)}
        onBlur={() => {
          const next = text.trim();
          if (next !== (slot.value ?? '')) setFault(slot.set(next === '' ? undefined : next));
        }}
      />
      {(fault ?? hint) && (
        <small id={`${id}-more`} className={fault ? 'field-fault' : undefined}>
          {fault ?? hint}
        </small>
      )}
    </div>
  );
}

/** One of a closed list; nothing chosen = not known. */
export function Pick<T extends string>({
  label,
  slot,
  options,
  none = 'not known',
  quiet = false,
}: {
  readonly label: string;
  readonly slot: Slot<T>;
  readonly options: readonly (readonly [T, string])[];
  /** Null where one must be chosen. */
  readonly none?: string | null;
  readonly quiet?: boolean;
}) {
  const id = useId();
  return (
    <div className="line-field">
      <label htmlFor={id} className={quiet ? 'unseen' : undefined}>
        {label}
      </label>
      <select
        id={id}
        value={slot.value ?? ''}
        onChange={(event) => slot.set(event.target.value === '' ? undefined : (event.target.value as T))}
      >
        {none !== null && <option value="">{none}</option>}
        {options.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}

/** A part of the page that opens and closes, with a word on what stands inside. */
export function Fold({
  title,
  said,
  open = false,
  children,
}: {
  readonly title: string;
  readonly said?: ReactNode;
  readonly open?: boolean;
  readonly children: ReactNode;
}) {
  return (
    <details className="fold" open={open}>
      <summary>
        <h3>{title}</h3>
        {said !== undefined && <span className="fold-said">{said}</span>}
      </summary>
      <div className="fold-body">{children}</div>
    </details>
  );
}
