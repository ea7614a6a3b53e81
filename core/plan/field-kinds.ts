import { dayNumber } from '../laboratory/day.ts';
/** The kinds of field that the table of editable fields is made of. */
export interface ValueField {
  readonly kind: 'value';
  readonly label: string;
  /** What the field wants, in words, for the message when it gets something else. */
  readonly wants: string;
  readonly accepts: (value: unknown) => boolean;
  /** False where the case cannot do without it. */
  readonly clearable: boolean;
}

export interface SectionField {
  readonly kind: 'section';
  readonly label: string;
  readonly fields: ReadonlyMap<string, EditableField>;
  /** Pairs such as medial and lateral only make sense whole. */
  readonly whole: boolean;
}

export type EditableField = ValueField | SectionField;

export const value = (label: string, wants: string, accepts: (v: unknown) => boolean): ValueField => ({
  kind: 'value',
  label,
  wants,
  accepts,
  clearable: true,
});
/** The same field where the case cannot do without it. */
export const needed = (field: ValueField): ValueField => ({ ...field, clearable: false });
export const section = (
  label: string,
  fields: Readonly<Record<string, EditableField>>,
  whole = false,
): SectionField => ({
  kind: 'section',
  label,
  fields: new Map(Object.entries(fields)),
  whole,
});

export const text = (label: string, most = 200) =>
  value(label, `one to ${most} characters`, (v) => typeof v === 'string' && v !== '' && v.length <= most);
export const line = (label: string) =>
  value(label, 'one to 200 characters', (v) => typeof v === 'string' && v.trim() !== '' && v.length <= 200);
export const number = (label: string, least: number, most: number, unit: string) =>
  value(
    label,
    `a number from ${least} to ${most} ${unit}`,
    (v) => typeof v === 'number' && Number.isFinite(v) && v >= least && v <= most,
  );
export const oneOf = (label: string, words: readonly string[]) =>
  value(label, `one of ${words.join(', ')}`, (v) => typeof v === 'string' && words.includes(v));
export const date = (label: string) =>
  value(label, 'a date such as 1956-03-31', (v) => typeof v === 'string' && isDate(v));

/** A day of the calendar, `YYYY-MM-DD`. */
export const isDate = (v: string): boolean => dayNumber(v) !== null;
