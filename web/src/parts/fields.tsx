import type { CaseFile } from '@gapline/core/plan/case.ts';
import { describeEdit } from '@gapline/core/plan/describe-edit.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { setField } from '@gapline/core/plan/set-field.ts';
import { useEffect, useId, useState } from 'react';
import { useDesk, useSession } from '../case/desk.tsx';

/** Value of the case under a JSON Pointer; undefined = not known. */
const useField = (pointer: string): unknown => useSession((s) => valueAt(s.shown, pointer));

function valueAt(file: CaseFile, pointer: string): unknown {
  let value: unknown = file;
  for (const step of pointer.slice(1).split('/')) {
    value = typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[step] : undefined;
  }
  return value;
}

/** Sets a field, or says why not. */
function useSetField(pointer: string): (value: unknown) => string | null {
  const { session } = useDesk();
  return (value) => {
    const tried = setField(session.store.getState().shown, pointer, value);
    if (!tried.ok) return tried.reason.message;
    const edit: Edit = { kind: 'set', field: pointer, value };
    session.commit([edit], describeEdit(edit));
    return null;
  };
}

interface FieldProps {
  readonly label: string;
  readonly field: string;
  readonly hint?: string;
}

/** A line of text; empty = not known. */
export function TextField({ label, field, hint, type = 'text' }: FieldProps & { readonly type?: 'text' | 'date' }) {
  const value = useField(field);
  const set = useSetField(field);
  return (
    <Typed
      label={label}
      hint={hint}
      type={type}
      shown={typeof value === 'string' ? value : ''}
      commit={(text) => set(text === '' ? null : text)}
    />
  );
}

/** A number with its unit; empty = not known, never zero. */
export function NumberField({ label, field, hint, unit = 'mm' }: FieldProps & { readonly unit?: string }) {
  const value = useField(field);
  const set = useSetField(field);
  return (
    <Typed
      label={label}
      hint={hint}
      unit={unit}
      type="text"
      numeric
      shown={typeof value === 'number' ? String(value) : ''}
      commit={(text) => {
        if (text === '') return set(null);
        const typed = Number(text.replace(',', '.').replace('−', '-'));
        return Number.isFinite(typed) ? set(typed) : `${label} wants a plain number.`;
      }}
    />
  );
}

interface TypedProps {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly unit?: string;
  readonly type: 'text' | 'date';
  readonly numeric?: boolean;
  readonly shown: string;
  readonly commit: (text: string) => string | null;
}

/** A field that is typed into: taken on Enter or on leaving it, put back with Escape. */
export function Typed({ label, hint, unit, type, numeric = false, shown, commit }: TypedProps) {
  const [text, setText] = useState(shown);
  const [fault, setFault] = useState<string | null>(null);
  const id = useId();
  useEffect(() => {
    setText(shown);
    setFault(null);
  }, [shown]);
  const take = (): void => {
    if (text.trim() !== shown) setFault(commit(text.trim()));
    else setFault(null);
  };
  return (
    <div className={`field${numeric ? ' is-number' : ''}`}>
      <label htmlFor={id}>{label}</label>
      <span className="field-box">
        <input
          id={id}
          type={type}
          value={text}
          inputMode={numeric ? 'decimal' : undefined}
          placeholder={type === 'text' ? 'not known' : undefined}
          aria-invalid={fault !== null}
          aria-describedby={fault || hint ? `${id}-more` : undefined}
          onChange={(event) => setText(event.target.value)}
          onBlur={take}
          onKeyDown={(event) => {
            if (event.key === 'Enter') take();
            if (event.key === 'Escape') {
              setText(shown);
              setFault(null);
            }
          }}
        />
        {unit && <span className="unit">{unit}</span>}
      </span>
      {(fault ?? hint) && (
        <small id={`${id}-more`} className={fault ? 'field-fault' : undefined}>
          {fault ?? hint}
        </small>
      )}
    </div>
  );
}

interface ChoiceProps extends FieldProps {
  readonly options: readonly (readonly [value: string, words: string])[];
  /** Words for nothing chosen; absent = one must be chosen. */
  readonly none?: string;
}

/** One of a closed list; "not known" is one of the choices. */
export function ChoiceField({ label, field, options, none, hint }: ChoiceProps) {
  const value = useField(field);
  const set = useSetField(field);
  return (
    <Choice
      label={label}
      hint={hint}
      options={options}
      none={none}
      value={typeof value === 'string' ? value : ''}
      onChoose={(next) => set(next === '' ? null : next)}
    />
  );
}

export function Choice(props: {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly options: ChoiceProps['options'];
  readonly none?: string | undefined;
  readonly value: string;
  readonly onChoose: (value: string) => void;
}) {
  return (
    <label className="field">
      <span>{props.label}</span>
      <select value={props.value} onChange={(event) => props.onChoose(event.target.value)}>
        {props.none !== undefined && <option value="">{props.none}</option>}
        {props.options.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
      {props.hint && <small>{props.hint}</small>}
    </label>
  );
}

interface HalfPair {
  readonly medial?: number | undefined;
  readonly lateral?: number | undefined;
}

/** A pair of medial and lateral that only makes sense whole: set when both are there. */
export function PairField({ label, field }: { readonly label: string; readonly field: string }) {
  const value = useField(field) as HalfPair | undefined;
  const { session } = useDesk();
  const [half, setHalf] = useState<HalfPair>({});
  const current: HalfPair = { ...half, ...value };
  const commitHalf = (which: 'medial' | 'lateral', text: string): string | null => {
    const typed = text === '' ? undefined : Number(text.replace(',', '.').replace('−', '-'));
    if (typed !== undefined && !Number.isFinite(typed)) return `${label} wants a plain number.`;
    const next: HalfPair = { ...current, [which]: typed };
    setHalf(next);
    const whole = next.medial !== undefined && next.lateral !== undefined;
    if (!whole && !value) return null;
    const edit: Edit = { kind: 'set', field, value: whole ? { medial: next.medial, lateral: next.lateral } : null };
    const tried = setField(session.store.getState().shown, field, edit.value);
    if (!tried.ok) return tried.reason.message;
    session.commit([edit], describeEdit(edit));
    return null;
  };
  const shown = (n: number | undefined): string => (n === undefined ? '' : String(n));
  const lacks = !value && (current.medial !== undefined || current.lateral !== undefined);
  return (
    <fieldset className="pair">
      <legend>{label}</legend>
      {(['medial', 'lateral'] as const).map((which) => (
        <Typed
          key={which}
          label={which === 'medial' ? 'Medial' : 'Lateral'}
          type="text"
          numeric
          unit="mm"
          shown={shown(current[which])}
          commit={(text) => commitHalf(which, text)}
        />
      ))}
      {lacks && <small className="pair-lacks">counts once both are given</small>}
    </fieldset>
  );
}
