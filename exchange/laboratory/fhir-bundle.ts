import { type AnalyteId, analyteOfLoinc } from '@gapline/core/laboratory/analyte.ts';
import type { LabResult } from '@gapline/core/laboratory/lab-result.ts';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import type { NotTaken, ReadLaboratory } from './read-laboratory.ts';

const LOINC = 'http://loinc.org';
/** Statuses whose value may be used; others are shown and left aside (HL7 FHIR R4, ObservationStatus). */
const USABLE = ['final', 'amended', 'corrected', 'preliminary'];

type Json = Readonly<Record<string, unknown>>;
const record = (v: unknown): Json => (typeof v === 'object' && v !== null && !Array.isArray(v) ? (v as Json) : {});
const list = (v: unknown): readonly Json[] => (Array.isArray(v) ? v.map(record) : []);
const text = (v: unknown): string | undefined => (typeof v === 'string' && v !== '' ? v : undefined);

interface Observation {
  readonly entry: string;
  readonly body: Json;
}

const describe = (o: Json): string => {
  const code = record(o.code);
  const codings = list(code.coding).map((c) => `${text(c.system) ?? '?'}|${text(c.code) ?? '?'}`);
  const name = text(code.text) ?? text(list(code.coding)[0]?.display) ?? 'unnamed';
  return [name, codings.join(' '), text(o.id) ?? ''].filter((s) => s !== '').join(', ');
};

const left = (o: Observation, code: string, message: string, mend: string): NotTaken => ({
  entry: o.entry,
  reason: { code, message, field: 'code', mend },
});

/** Value with unit and comparator from a Quantity, or a word from text or a coded answer. */
function resultOf(body: Json): Pick<LabResult, 'value' | 'unit' | 'comparator'> | null {
  const quantity = record(body.valueQuantity);
  if (typeof quantity.value === 'number') {
    const unit = text(quantity.code) ?? text(quantity.unit);
    const comparator = text(quantity.comparator)?.[0];
    return {
      value: quantity.value,
      ...(unit === undefined ? {} : { unit }),
      ...(comparator === '<' || comparator === '>' ? { comparator } : {}),
    };
  }
  const coded = record(body.valueCodeableConcept);
  const word = text(body.valueString) ?? text(coded.text) ?? text(list(coded.coding)[0]?.display);
  return word === undefined ? null : { value: word };
}

/** Analyte that an Observation's or component's codes name; local codes are looked up by the table's own ids. */
function analyteOf(code: Json): AnalyteId | null {
  for (const coding of list(code.coding)) {
    const value = text(coding.code);
    const known = value !== undefined && text(coding.system) === LOINC ? analyteOfLoinc(value) : null;
    if (known) return known;
  }
  return null;
}

function takeOne(o: Observation, body: Json, id: string, day: string | undefined): LabResult | NotTaken {
  const analyte = analyteOf(record(body.code));
  if (!analyte)
    return left(
      o,
      'code-not-known',
      'No result of the work-up has this code.',
      'Enter it by hand if it belongs to the work-up.',
    );
  const value = resultOf(body);
  if (!value) return left(o, 'no-value', 'The entry holds no value.', 'Ask the laboratory, or enter it by hand.');
  return { id, analyte, ...value, ...(day === undefined ? {} : { takenOn: day }) };
}

const isTaken = (x: LabResult | NotTaken): x is LabResult => 'analyte' in x;
const isLeft = (x: LabResult | NotTaken): x is NotTaken => !isTaken(x);

/** All results of one Observation: its own value, and each component's. */
function takeObservation(o: Observation, index: number): readonly (LabResult | NotTaken)[] {
  const status = text(o.body.status) ?? 'unknown';
  if (!USABLE.includes(status))
    return [left(o, 'status-not-usable', `The entry is marked ${status}.`, 'Wait for the final result.')];
  const when =
    text(o.body.effectiveDateTime) ?? text(o.body.effectiveInstant) ?? text(record(o.body.effectivePeriod).start);
  // Only the day counts; a year or a month alone is not a day and is left out, which the reader then says.
  const day = when && /^\d{4}-\d{2}-\d{2}/.test(when) ? when.slice(0, 10) : undefined;
  const base = `fhir-${text(o.body.id) ?? index}`;
  const parts = list(o.body.component).map((c, n) => takeOne(o, c, `${base}-${n}`, day));
  const whole = resultOf(o.body) !== null || parts.length === 0 ? [takeOne(o, o.body, base, day)] : [];
  return [...whole, ...parts];
}

/**
 * Reads a FHIR Bundle (R4, tolerant) of Observations into laboratory results as entered: value, unit, comparator and
 * day as they stand, judged later by core. Codes that the table does not know, entries without a value and entries that
 * are not final are returned in `notTaken`, never dropped. Refuses what is not JSON or not a Bundle.
 * Source: HL7 FHIR R4 4.0.1, Bundle and Observation.
 */
export function readFhirBundle(source: string, fileName: string): Outcome<ReadLaboratory> {
  let parsed: unknown;
  try {
    parsed = JSON.parse(source);
  } catch {
    return cannot({
      code: 'not-json',
      message: `${fileName} is not JSON.`,
      field: fileName,
      mend: 'Export the results as a FHIR Bundle in JSON.',
    });
  }
  const bundle = record(parsed);
  if (bundle.resourceType !== 'Bundle')
    return cannot({
      code: 'not-a-bundle',
      message: `${fileName} is not a FHIR Bundle.`,
      field: 'resourceType',
      mend: 'Export the results as a Bundle of Observations.',
    });
  const observations = list(bundle.entry)
    .map((e) => record(e.resource))
    .filter((r) => r.resourceType === 'Observation')
    .map((body): Observation => ({ body, entry: describe(body) }));
  const all = observations.flatMap(takeObservation);
  return ok({ results: all.filter(isTaken), notTaken: all.filter(isLeft) });
}
