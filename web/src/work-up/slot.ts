import type { CaseFile } from '@gapline/core/plan/case.ts';
import { describeEdit } from '@gapline/core/plan/describe-edit.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { setField } from '@gapline/core/plan/set-field.ts';
import { type Desk, useDesk, useSession } from '../case/desk.tsx';

/** How a value is given: shown while it is typed, or taken as one change that undo takes back. */
export type How = 'draft' | 'take';

/** One place of the work-up: what stands there, and a way to change it. Nothing there = not known. */
export interface Slot<T> {
  readonly value: T | undefined;
  /** Undefined clears. Gives what is wrong with the value where the case refuses it. */
  readonly set: (next: T | undefined, how?: How) => string | null;
}

function valueAt(file: CaseFile, pointer: string): unknown {
  let value: unknown = file;
  for (const step of pointer.slice(1).split('/'))
    value = typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[step] : undefined;
  return value;
}

/** Sets one field of the case through the edit queue, or says why not. */
export function setAt(desk: Desk, pointer: string, change: { readonly value: unknown; readonly how: How }) {
  const { session } = desk;
  const value = change.value === undefined ? null : change.value;
  const tried = setField(session.store.getState().shown, pointer, value);
  if (!tried.ok) return `${tried.reason.message} ${tried.reason.mend ?? ''}`.trim();
  const edit: Edit = { kind: 'set', field: pointer, value };
  if (change.how === 'draft') session.draft([edit], describeEdit(edit));
  else session.commit([edit], describeEdit(edit));
  return null;
}

/** The slot of a JSON Pointer such as `/workUp/history/asa`. */
export function useSlot<T>(pointer: string): Slot<T> {
  const desk = useDesk();
  const value = useSession((s) => valueAt(s.shown, pointer)) as T | undefined;
  return { value, set: (next, how = 'take') => setAt(desk, pointer, { value: next, how }) };
}

/** One field of an object that is set as a whole. A field that is cleared is left out. */
export function fieldOf<T extends object, K extends keyof T>(whole: Slot<T>, key: K): Slot<NonNullable<T[K]>> {
  return {
    value: whole.value?.[key] ?? undefined,
    set: (next, how) => {
      const { [key]: _, ...rest } = (whole.value ?? {}) as T;
      return whole.set((next === undefined ? rest : { ...rest, [key]: next }) as T, how);
    },
  };
}

/** One item of a list that is set as a whole; clearing takes it out of the list. */
export function itemOf<T extends { readonly id: string }>(list: Slot<readonly T[]>, id: string): Slot<T> {
  const all = list.value ?? [];
  return {
    value: all.find((item) => item.id === id),
    set: (next, how) =>
      list.set(
        all.flatMap((item) => (item.id === id ? (next === undefined ? [] : [next]) : [item])),
        how,
      ),
  };
}

/** Puts an item at the end of a list. */
export const addTo = <T>(list: Slot<readonly T[]>, ...items: readonly T[]): string | null =>
  list.set([...(list.value ?? []), ...items]);

export const newId = (): string => crypto.randomUUID().slice(0, 8);
