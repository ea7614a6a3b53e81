import {
  evidenceFromMeasurements,
  type MeasuredEvidence,
  type MeasuredFinding,
} from '../failure/evidence-from-measurements.ts';
import type { Measurement } from '../limb/measurement.ts';
import { type PatellaReading, readPatella } from '../limb/patella-baja.ts';
import type { ComplexityFacts } from '../work-up/complexity.ts';
import type { WorkUpSurroundings } from '../work-up/read-work-up.ts';
import type { CaseFile } from './case.ts';
import { movedComponents } from './moved-components.ts';
import type { Plan } from './plan.ts';

/**
 * What the case and its plan add to the work-up (WU-9): findings from the films, openings of the examination, classes
 * of bone and ligaments. `plan` null = not computed yet: then the films say nothing. `today` is YYYY-MM-DD; no clock.
 * The tray's angle is turned from "0 = square, valgus +" of the table to "90 = square" of CAUSE-6.
 */
export function surroundingsOf(file: CaseFile, plan: Plan | null, today: string): WorkUpSurroundings {
  const opening = file.examination?.openingExtensionMm;
  return {
    today,
    measured: plan ? [...measuredEvidence(file, plan), ...movedComponents(file)] : [],
    ...(opening ? { extensionOpening: opening } : {}),
    bone: boneOf(file),
  };
}

function measuredEvidence(file: CaseFile, plan: Plan): readonly MeasuredEvidence[] {
  const lines = plan.measurements.filter((m) => m.side === file.side);
  const line = (id: string) => lines.find((m) => m.id === id);
  const hka = line('hka');
  const tray = line('tray-coronal');
  const combinedRotation = line('ct-combined-rotation');
  const { femoral } = plan.jointLine;
  const overhang = overhangOf(line('tray-width'), line('tibial-bone-width'));
  return evidenceFromMeasurements({
    ...(hka ? { hka } : {}),
    ...(tray ? { trayCoronal: { ...tray, value: tray.value === null ? null : tray.value + 90 } } : {}),
    ...(femoral.ok
      ? { jointLineShift: { value: femoral.value.shiftMm, sd: femoral.value.sdMm, film: filmOf(femoral.value) } }
      : {}),
    patellaBaja: {
      reading: bajaOf(lines),
      film: line('insall-salvati')?.film ?? line('blackburne-peel')?.film ?? null,
    },
    ...(overhang ? { overhang } : {}),
    ...(combinedRotation ? { combinedRotation } : {}),
  });
}

const filmOf = (estimate: { readonly opinions: readonly { readonly film: string }[] }): string | null =>
  estimate.opinions[0]?.film ?? null;

const BAJA: Readonly<Record<PatellaReading, 'true' | 'pseudo' | 'none' | null>> = {
  'true-baja': 'true',
  'pseudo-baja': 'pseudo',
  'not-low': 'none',
  // Part of the indices is low: neither accuses nor clears.
  mixed: null,
  'not-known': null,
};

function bajaOf(lines: readonly Measurement[]) {
  const value = (id: string) => lines.find((m) => m.id === id)?.value ?? null;
  const reading = readPatella({
    'insall-salvati': value('insall-salvati'),
    'modified-insall-salvati': value('modified-insall-salvati'),
    'blackburne-peel': value('blackburne-peel'),
    'caton-deschamps': value('caton-deschamps'),
  });
  return BAJA[reading];
}

/**
 * How far the tray is wider than the bone under it, mm: the least that overhangs in all, so at least half of it on one
 * side. A tray as wide as the bone may still overhang where it is set to one side, hence nothing here ever clears.
 */
function overhangOf(tray: Measurement | undefined, bone: Measurement | undefined): MeasuredFinding | null {
  if (!tray || !bone || tray.value === null || bone.value === null || tray.film !== bone.film) return null;
  const excess = (tray.value - bone.value) / 2;
  if (excess <= 0) return null;
  return { value: excess, sd: Math.hypot(tray.sd ?? 0, bone.sd ?? 0) / 2, film: tray.film };
}

function boneOf({ bone, examination }: CaseFile): NonNullable<WorkUpSurroundings['bone']> {
  const facts: Pick<ComplexityFacts, 'femurClass' | 'tibiaClass' | 'mcl' | 'extensorMechanism'> = {
    ...(bone?.femurClass ? { femurClass: bone.femurClass } : {}),
    ...(bone?.tibiaClass ? { tibiaClass: bone.tibiaClass } : {}),
    ...(examination?.mcl ? { mcl: examination.mcl } : {}),
    ...(examination?.extensorMechanism ? { extensorMechanism: examination.extensorMechanism } : {}),
  };
  return facts;
}
