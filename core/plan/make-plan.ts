import type { Catalogue } from '../catalogue/catalogue.ts';
import { DEFAULT_WEIGHTS } from '../gaps/default-weights.ts';
import type { JointLineEstimate } from '../joint-line/estimate-types.ts';
import { femoralJointLine } from '../joint-line/femoral-joint-line.ts';
import type { JointLineInput } from '../joint-line/joint-line-input.ts';
import { rulesOfThumb } from '../joint-line/rules-of-thumb.ts';
import { tibialJointLine } from '../joint-line/tibial-joint-line.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { measureCanals } from '../limb/measure-canals.ts';
import { measureCase } from '../limb/measure-knee.ts';
import { cannot, type Outcome } from '../measure/outcome.ts';
import { measureRotation } from '../rotation/measure-rotation.ts';
import { alignmentTargets, chosenTarget } from './alignment-targets.ts';
import { presentFilms, targetTilt } from './bone-inputs.ts';
import { boneState } from './bone-state.ts';
import { boneStock, conflictsOfStock, mapsOf } from './bone-stock.ts';
import { type CalibratedFilm, calibrateFilms } from './calibrate-films.ts';
import type { CaseFile } from './case.ts';
import { type CaseFinding, checkCase, soundPart } from './check-case.ts';
import { conflictsOf, filmsOf } from './conflicts.ts';
import { drawPlan } from './draw-plan.ts';
import { type FindingsBook, goWithout, newBook } from './findings-book.ts';
import { spreadOfMarking, withMeasuredSpread } from './measured-spread.ts';
import type { Plan } from './plan.ts';
import { solveFor } from './solve-for.ts';
import { sourcesOf } from './sources-of.ts';
import { type FixationInputs, fixationPlan, measuredFixation, withMeasuredFixation } from './stem-plan-fixation.ts';
import { versionsOf } from './versions.ts';

/**
 * The whole plan from one case: what is measured, where the joint line belongs, what bone there is to build on, the construct of least
 * cost, and everything that is missing or in conflict, in this order of reading:
 * checks, scales, measurements, joint line, alignment, bone, construct, drawings.
 * Pure: the same case and catalogue give the same plan, byte for byte. `catalogue` null = none chosen, then no
 * construct is proposed. Never throws for what a case may hold; whatever cannot be had is named with what it would change.
 */
export function makePlan(given: CaseFile, catalogue: Catalogue | null): Plan {
  const marking = spreadOfMarking(given);
  const file = withMeasuredSpread(given, marking);
  const findings = checkCase(file);
  const calibrated = calibrateFilms(file);
  const known = knownOf(file, { findings, calibrated });
  const rotation = rotationOf(known.sound);
  const book = newBook();
  const fixing = fixationInputs(known, catalogue);
  const measured = boneOf(book, known);
  const fixation = fixing && measuredFixation(fixing, measured);
  const bone = withMeasuredFixation(measured, fixation);
  if (!file.settings?.targetAlignment) goWithout(book, NO_ALIGNMENT);
  const weights = file.settings?.weights ?? DEFAULT_WEIGHTS;
  const construct = solveFor({ file, book, bone, catalogue, weights });
  const needed = construct.kind === 'not-attempted' ? construct.because : [];
  const best = construct.kind === 'solved' ? construct.answer.best.construct : null;
  const held = fixation && fixationPlan(fixation, bone, best);
  const undrawn: Omit<Plan, 'drawings' | 'sources'> = {
    format: 'gapline-plan',
    version: '1.0',
    versions: versionsOf(weights, catalogue, rotation.length > 0),
    caseId: file.id,
    side: file.side,
    films: filmsOf(file, calibrated, findings),
    ...(marking ? { marking } : {}),
    measurements: [...known.measurements, ...rotation],
    jointLine: known.jointLine,
    alignment: known.alignment,
    boneStock: known.stock,
    bone,
    construct,
    ...(held ? { stems: held.stems, metaphysis: held.metaphysis } : {}),
    missing: [...needed, ...book.without, ...(held?.stems.notKnown ?? []), ...(held?.metaphysis.notKnown ?? [])],
    conflicts: [
      ...conflictsOf({
        file,
        findings,
        films: known.films,
        jointLine: known.jointLine,
        bone: bonesApart(known, book),
      }),
      ...(held?.stems.warnings ?? []),
    ],
  };
  const drawings = drawPlan({ file: known.sound, evidence: known.evidence, plan: undrawn, catalogue });
  return { ...undrawn, drawings, sources: sourcesOf(undrawn, weights) };
}

/** What is known of the knee before any construct is thought of. */
function knownOf(
  file: CaseFile,
  seen: { readonly findings: readonly CaseFinding[]; readonly calibrated: readonly CalibratedFilm[] },
) {
  const sound = soundPart(file, seen.findings);
  const evidence = evidenceFor(sound, seen.calibrated);
  const measurements = [...measureCase(evidence), ...measureCanals(evidence, sound.canals ?? [])];
  const jointLine = {
    femoral: femoralJointLine(evidence),
    tibial: tibialJointLine(evidence),
    rulesOfThumb: rulesOfThumb(evidence),
  };
  const alignment = alignmentTargets(file.settings, measurements);
  const tilt = targetTilt(chosenTarget(alignment), measurements);
  const stock = boneStock(sound, { evidence, tilt, measurements });
  return { sound, evidence, films: presentFilms(evidence), measurements, jointLine, alignment, tilt, stock };
}

/** Rotation of the components, where the case has a CT stack. */
function rotationOf({ side, patient, films, marks }: CaseFile) {
  return measureRotation({ side, ...(patient.sex ? { sex: patient.sex } : {}), films, marks });
}

/** What fixation in metaphysis and shaft is planned from; null without a catalogue. */
function fixationInputs(known: ReturnType<typeof knownOf>, catalogue: Catalogue | null): FixationInputs | null {
  if (!catalogue) return null;
  const { sound, evidence, tilt, stock, jointLine } = known;
  const targetMm = jointLine.femoral.ok ? jointLine.femoral.value.heightMm : null;
  return { file: sound, evidence, tilt, maps: mapsOf(stock), targetMm, catalogue };
}

/** The sound part of a case as evidence, with its settings of the joint line. The knee to be revised is a replaced one. */
export function evidenceFor(sound: CaseFile, calibrated: readonly CalibratedFilm[]): JointLineInput {
  const held = new Set(sound.films);
  const { implants, examination, settings } = sound;
  const evidence: KneeEvidence = {
    side: sound.side,
    state: 'replaced',
    films: sound.films,
    marks: sound.marks,
    calibrations: new Map(calibrated.filter((c) => held.has(c.film)).map((c) => [c.film.id, c.calibration])),
    ...(implants ? { implants } : {}),
    ...(examination ? { examination } : {}),
  };
  return {
    ...evidence,
    ...(settings?.correlations ? { correlations: settings.correlations } : {}),
    ...(settings?.population ? { population: settings.population } : {}),
  };
}

function boneOf(book: FindingsBook, known: ReturnType<typeof knownOf>): Plan['bone'] {
  const { sound, evidence, films, measurements, tilt, stock } = known;
  const target: Outcome<JointLineEstimate> = known.jointLine.femoral;
  if (!target.ok) {
    book.needed.push({
      what: `Femoral joint line: ${target.reason.message}`,
      field: target.reason.field ?? 'marks',
      wouldChange: 'Everything that is planned from it: bone, gaps and construct.',
    });
    return cannot(target.reason);
  }
  return boneState(book, { file: sound, evidence, films, measurements, jointLine: target.value, tilt, stock });
}

/** What contradicts itself in the bone stock, and where it lies apart from the marks. */
const bonesApart = ({ stock }: ReturnType<typeof knownOf>, book: FindingsBook) => [
  ...conflictsOfStock(stock),
  ...book.apart,
];

const NO_ALIGNMENT = {
  what: 'Target alignment',
  field: 'settings.targetAlignment',
  wouldChange: 'Planned for mechanical neutral; a constitutional target tilts both surfaces into slight varus.',
};
