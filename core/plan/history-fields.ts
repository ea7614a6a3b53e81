import { CARDIAC_RISK_ITEMS } from '../host/cardiac-risk.ts';
import { CHARLSON_ITEMS } from '../host/charlson.ts';
import { HOST_FACTORS } from '../host/optimise.ts';
import {
  DRUG_ITEMS,
  FIXATIONS,
  HARD_FEATURES,
  OPERATION_KINDS,
  PAIN_COURSES,
  PART_KINDS,
  SYMPTOMS,
} from '../work-up/history.ts';
import { isListOf, isListWithIds, isNumber, isText, isWord } from './accepts.ts';
import { date, needed, number, oneOf, section, text, value } from './field-kinds.ts';
import { KNOWN, known, knownOf } from './known-fields.ts';

const isPoint = isListOf(isNumber(0, 1), 2);

/** History and examination, by the names of core/work-up/history.ts. */
export const HISTORY_FIELDS = section('History', {
  operations: value(
    'Operations',
    'a list of operations with kind and day',
    isListWithIds({ kind: isWord(OPERATION_KINDS) }, { on: isText(40), note: isText(2000) }),
  ),
  parts: value(
    'Parts in the knee',
    'a list of parts',
    isListWithIds(
      { part: isWord(PART_KINDS) },
      {
        fixation: isWord(FIXATIONS),
        reference: isText(200),
        lot: isText(200),
        serial: isText(200),
        device: isText(200),
        expires: isText(40),
        sizeNote: isText(500),
        features: isListOf(isWord(HARD_FEATURES.map((f) => f.id)), HARD_FEATURES.length),
        from: isText(500),
      },
    ),
  ),
  scars: value(
    'Scars',
    'a list of scars, points between 0 and 1',
    isListWithIds(
      { points: isListOf((v) => isPoint(v) && (v as unknown[]).length === 2) },
      { year: isNumber(1900, 2200), adherent: isWord(KNOWN) },
    ),
  ),
  painCourse: oneOf('Course of the pain', PAIN_COURSES),
  painFreeMonths: number('Months free of pain', 0, 1200, 'months'),
  symptoms: knownOf('Symptoms', SYMPTOMS),
  examination: section('Examination for the work-up', {
    flexionDeg: number('Flexion', 0, 170, 'deg'),
    extensionDeficitDeg: number('Extension deficit', -30, 120, 'deg'),
    activeLagDeg: number('Active lag', 0, 120, 'deg'),
    opening30Mm: section(
      'Opening at 30 degrees',
      {
        medial: needed(number('Opening at 30 degrees, medial', -30, 60, 'mm')),
        lateral: needed(number('Opening at 30 degrees, lateral', -30, 60, 'mm')),
      },
      true,
    ),
    drawer90Mm: number('Drawer at 90 degrees', -30, 60, 'mm'),
    footPulses: known('Pulses of the foot'),
    skinSound: known('Skin sound'),
    hipRotationPainful: known('Rotation of the hip painful'),
    rootSigns: known('Root signs'),
    tenderness: text('Tenderness', 2000),
  }),
  charlson: knownOf('Comorbidities', CHARLSON_ITEMS),
  cardiac: knownOf('Cardiac risk', CARDIAC_RISK_ITEMS),
  asa: value('ASA class', 'a whole number from 1 to 5', isWord([1, 2, 3, 4, 5])),
  heightCm: number('Height', 30, 272, 'cm'),
  weightKg: number('Weight', 1, 650, 'kg'),
  drugs: knownOf('Drugs and allergies', DRUG_ITEMS),
  drugNotes: text('Drugs and allergies by name', 5000),
  hostValues: section(
    'Values of the host',
    Object.fromEntries(HOST_FACTORS.map((f) => [f.id, number(f.label, 0, 10_000, f.unit)])),
  ),
  surgeryOn: date('Day of the operation'),
});
