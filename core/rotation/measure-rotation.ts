import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { combine } from '../measure/combine.ts';
import { type Outcome, ok, type Reason } from '../measure/outcome.ts';
import { type Perturbation, propagatedSd } from '../measure/propagate.ts';
import { femoralInputs, femoralRotation, type MedialEnd } from './femoral-rotation.ts';
import { type KneeOnStack, kneeOnStack, type StackReading, shakableStack } from './knee-on-stack.ts';
import { inWords, publishedReading } from './published-reading.ts';
import { NATIVE_FEMUR, NATIVE_TIBIA } from './published-rotation.ts';
import { clinicalAxis, elsewhere, leaningSlices, obliqueLimb } from './rotation-cautions.ts';
import type { RotationEvidence } from './rotation-evidence.ts';
import { COMBINED, FEMORAL, type RotationLine, TIBIAL } from './rotation-line.ts';
import { TIBIAL_INPUTS, tibialRotation } from './tibial-rotation.ts';

/** One way to measure a rotation. */
interface Way {
  readonly name: string;
  readonly inputs: readonly LandmarkId[];
  readonly formula: (r: StackReading) => Outcome<number>;
}

const femoralWay = (medial: MedialEnd, name: string): Way => ({
  name,
  inputs: femoralInputs(medial),
  formula: (r) => femoralRotation(r, medial),
});
const FEMORAL_WAYS: readonly Way[] = [
  femoralWay('ct-medial-epicondyle-sulcus', 'surgical epicondylar axis'),
  femoralWay('ct-medial-epicondyle-peak', 'clinical epicondylar axis'),
];
const TIBIAL_WAYS: readonly Way[] = [
  { name: 'centre of the plateau to the tip of the tubercle', inputs: TIBIAL_INPUTS, formula: tibialRotation },
];

/** A way with the stack that it is measured on, or as much of it as is marked. */
interface Chosen {
  readonly way: Way;
  readonly knee: KneeOnStack;
  readonly missing: readonly LandmarkId[];
}

/**
 * Rotation of both components on the present CT stacks of one knee, and both together (ROT-1 to ROT-8): femoral, tibial,
 * combined, in this order. Degrees, internal negative; spreads carried over from every mark. A knee without a stack gives
 * no line at all; with one, what cannot be measured is a line with its reason. Source: Berger 1993, Berger & Crossett 1998.
 */
export function measureRotation(evidence: RotationEvidence): readonly RotationLine[] {
  const { side } = evidence;
  const films = evidence.films.filter(
    (f) => f.role === 'present' && f.slices && (f.side === side || f.side === 'both'),
  );
  if (films.length === 0) return [];
  const stacks = films.map((f) => kneeOnStack(f, evidence));
  const knees = stacks.flatMap((s) => (s.ok ? [s.value] : []));
  const refusal = stacks.find((s) => !s.ok);
  const [femur, tibia] = [choose(FEMORAL_WAYS, knees), choose(TIBIAL_WAYS, knees)];
  if (!femur || !tibia) {
    const reason = refusal && !refusal.ok ? refusal.reason : NO_STACK;
    return [FEMORAL, TIBIAL, COMBINED].map((head) => ({ ...head, side, ...EMPTY, inputs: [], refused: reason }));
  }
  return [oneLine(FEMORAL, femur, side), oneLine(TIBIAL, tibia, side), combinedLine({ femur, tibia }, evidence)];
}

const EMPTY = { value: null, sd: null, film: null, flags: [] } as const;
const NO_STACK: Reason = { code: 'no-slices', message: 'No stack of this knee can be measured on.' };

/** The best way on the first stack that shows all of it; else what lacks least. */
function choose(ways: readonly Way[], knees: readonly KneeOnStack[]): Chosen | null {
  let best: Chosen | null = null;
  for (const way of ways)
    for (const knee of knees) {
      const missing = way.inputs.filter((id) => !knee.placed.has(id) && !knee.faults.has(id));
      if (missing.length === 0) return { way, knee, missing };
      if (!best || missing.length < best.missing.length) best = { way, knee, missing };
    }
  return best;
}

/** Why it cannot be measured, in the terms of the table; null where it can. */
function absence({ way, knee, missing }: Chosen): Pick<RotationLine, 'missing' | 'refused'> | null {
  if (missing.length > 0) return { missing };
  const fault = way.inputs.map((id) => knee.faults.get(id)).find((reason) => reason !== undefined);
  return fault ? { refused: fault } : null;
}

/** The value of some formula with its spread, and with the points put back. */
function shaken(formula: () => Outcome<number>, perturbations: readonly Perturbation[]) {
  const value = formula();
  return value.ok ? ok({ value: value.value, sd: propagatedSd(formula, perturbations) }) : value;
}

function oneLine(head: typeof FEMORAL, chosen: Chosen, side: RotationLine['side']): RotationLine {
  const { way, knee } = chosen;
  const line = { ...head, side, inputs: way.inputs };
  const absent = absence(chosen);
  if (absent) return { ...line, ...EMPTY, ...absent };
  const { reading, perturbations } = shakableStack(knee, way.inputs);
  const measured = shaken(() => way.formula(reading), perturbations);
  if (!measured.ok) return { ...line, ...EMPTY, refused: measured.reason };
  const { value, sd } = measured.value;
  return {
    ...line,
    value,
    sd,
    film: knee.film.id,
    variant: `${way.name}, ${slicesTold(chosen)}; the papers write ${inWords(value)}`,
    flags: flagsOf(chosen),
  };
}

/** Which slices the points lie on, counted from 1 as shown. */
function slicesTold({ way, knee }: Chosen): string {
  const slices = [...new Set(way.inputs.flatMap((id) => knee.placed.get(id)?.slice ?? []))].sort((a, b) => a - b);
  const numbers = slices.map((s) => s + 1).join(', ');
  return slices.length === 1 ? `all on slice ${numbers}` : `on slices ${numbers}`;
}

const flagsOf = ({ way, knee }: Chosen): RotationLine['flags'] => [
  ...leaningSlices(knee),
  ...clinicalAxis(way.inputs),
  ...obliqueLimb(knee, way.inputs),
];

function combinedLine(
  { femur, tibia }: { readonly femur: Chosen; readonly tibia: Chosen },
  { side, sex }: RotationEvidence,
): RotationLine {
  const inputs = [...femur.way.inputs, ...tibia.way.inputs];
  const line = { ...COMBINED, side, inputs };
  const missing = [...femur.missing, ...tibia.missing];
  const absent = missing.length > 0 ? { missing } : (absence(femur) ?? absence(tibia));
  if (absent) return { ...line, ...EMPTY, ...absent };
  const [f, t] = [shakableStack(femur.knee, femur.way.inputs), shakableStack(tibia.knee, tibia.way.inputs)];
  const together = (native: number) =>
    shaken(
      () =>
        combine(femur.way.formula(f.reading), tibia.way.formula(t.reading), (a, b) =>
          ok(a - native + (b - NATIVE_TIBIA.meanDeg)),
        ),
      [...f.perturbations, ...t.perturbations],
    );
  if (!sex) return { ...line, ...EMPTY, refused: sexMissing(together) };
  const measured = together(NATIVE_FEMUR[sex].meanDeg);
  if (!measured.ok) return { ...line, ...EMPTY, refused: measured.reason };
  const { value, sd } = measured.value;
  return {
    ...line,
    value,
    sd,
    film: tibia.knee.film.id,
    variant: `femoral and tibial excess over the native mean of a ${sex} knee; the papers write ${inWords(value)}`,
    flags: [
      { code: 'published-reading', message: publishedReading(value, sd) },
      elsewhere(sex),
      ...flagsOf(femur),
      ...flagsOf(tibia).filter((flag) => flag.code !== 'slices-lean'),
    ],
  };
}

/** What either sex would give: the value hangs on it by more than many a published range is wide. */
function sexMissing(together: (native: number) => Outcome<{ readonly value: number }>): Reason {
  const [woman, man] = [together(NATIVE_FEMUR.female.meanDeg), together(NATIVE_FEMUR.male.meanDeg)];
  const would =
    woman.ok && man.ok
      ? ` It would be ${inWords(woman.value.value)} in a woman, ${inWords(man.value.value)} in a man.`
      : '';
  return {
    code: 'sex-not-known',
    message: `The excess is counted from the native mean of the patient's sex (Berger 1993), which is not known.${would}`,
    field: 'patient.sex',
    mend: "Give the patient's sex.",
  };
}
