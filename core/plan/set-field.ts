import { type Cannot, cannot, type Outcome, ok } from '../measure/outcome.ts';
import type { CaseFile } from './case.ts';
import { editableField, pointerSteps } from './editable-fields.ts';
import type { EditableField } from './field-kinds.ts';

type Fields = Readonly<Record<string, unknown>>;

const isFields = (v: unknown): v is Fields => typeof v === 'object' && v !== null && !Array.isArray(v);

/**
 * The case with one field set, or cleared by `null`. Sections on the way are made where absent.
 * Refuses a field outside the table of editable fields, and a value that the field does not accept.
 */
export function setField(file: CaseFile, pointer: string, value: unknown): Outcome<CaseFile> {
  const field = editableField(pointer);
  const steps = pointerSteps(pointer);
  if (!field || !steps) {
    return cannot({
      code: 'field-not-editable',
      message: `"${pointer}" is not a field that can be set.`,
      field: pointer,
      mend: 'Use a pointer to a field of the case, such as /examination/mcl.',
    });
  }
  const fault = value === null ? clearFault(field, pointer) : valueFault(field, pointer, value);
  if (fault) return fault;
  const next = withValue(file as unknown as Fields, steps, value);
  const halfPair = incompletePair(next, steps);
  return halfPair ?? ok(next as unknown as CaseFile);
}

function clearFault(field: EditableField, pointer: string): Cannot | null {
  if (field.kind === 'section' ? pointer !== '/patient' : field.clearable) return null;
  return cannot({
    code: 'field-needed',
    message: `${field.label} cannot be left empty.`,
    field: pointer,
    mend: `Give ${field.label.toLowerCase()} another value instead.`,
  });
}

function valueFault(field: EditableField, pointer: string, value: unknown): Cannot | null {
  if (field.kind === 'value') return field.accepts(value) ? null : wrongValue(field.label, field.wants, pointer);
  if (!isFields(value)) return wrongValue(field.label, 'a group of named fields', pointer);
  for (const key of Object.keys(value)) {
    const inner = field.fields.get(key);
    if (!inner)
      return wrongValue(field.label, `nothing but ${[...field.fields.keys()].join(', ')}`, `${pointer}/${key}`);
    const fault = valueFault(inner, `${pointer}/${key}`, value[key]);
    if (fault) return fault;
  }
  const absent = field.whole ? [...field.fields.keys()].find((key) => !Object.hasOwn(value, key)) : undefined;
  return absent
    ? wrongValue(field.label, `${[...field.fields.keys()].join(', ')} together`, `${pointer}/${absent}`)
    : null;
}

const wrongValue = (label: string, wants: string, pointer: string): Cannot =>
  cannot({
    code: 'value-not-accepted',
    message: `${label} wants ${wants}.`,
    field: pointer,
    mend: `Enter ${wants}.`,
  });

/** Copy of the object with the value at the end of the steps; `null` takes the last key away. */
function withValue(object: Fields, steps: readonly string[], value: unknown): Fields {
  const [step = '', ...rest] = steps;
  const { [step]: current, ...others } = object;
  if (rest.length === 0) return value === null ? others : { ...object, [step]: value };
  if (value === null && current === undefined) return object;
  return { ...object, [step]: withValue(isFields(current) ? current : {}, rest, value) };
}

/** A pair such as medial and lateral set by halves is refused until both are there. */
function incompletePair(file: Fields, steps: readonly string[]): Cannot | null {
  const pointer = `/${steps.slice(0, -1).join('/')}`;
  const parent = steps.length > 1 ? editableField(pointer) : null;
  if (parent?.kind !== 'section' || !parent.whole) return null;
  let value: unknown = file;
  for (const step of steps.slice(0, -1)) value = isFields(value) ? value[step] : undefined;
  return value === undefined ? null : valueFault(parent, pointer, value);
}
