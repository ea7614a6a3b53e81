import { BONE_MAP_FIELDS } from './bone-map-fields.ts';
import {
  date,
  type EditableField,
  line,
  needed,
  number,
  oneOf,
  type SectionField,
  section,
  text,
  value,
} from './field-kinds.ts';
import { PINNED_FIELDS } from './pinned-fields.ts';
import { INTERFACE_SPANS } from './span-fields.ts';
import { SURPRISE_FIELDS } from './surprise-fields.ts';
import { WORK_UP_FIELDS } from './work-up-fields.ts';

/**
 * The fields of a case that an edit may set, with what each accepts. An edit can reach nothing
 * outside this table: films and marks have edits of their own, `format`, `version`, `id` never change.
 */

const opening = (label: string) =>
  section(
    label,
    {
      medial: needed(number(`${label}, medial`, -30, 60, 'mm')),
      lateral: needed(number(`${label}, lateral`, -30, 60, 'mm')),
    },
    true,
  );
const ligament = (label: string) => oneOf(label, ['intact', 'attenuated', 'absent', 'unknown']);
const boneClass = (label: string) => oneOf(label, ['1', '2A', '2B', '3']);
const boneQuality = (label: string) => oneOf(label, ['good', 'sclerotic', 'osteoporotic']);
const correlation = (label: string) => needed(number(label, 0, 1, ''));

const isRecord = (v: unknown): v is Readonly<Record<string, unknown>> =>
  typeof v === 'object' && v !== null && !Array.isArray(v);
const isNumber = (v: unknown): v is number => typeof v === 'number' && Number.isFinite(v);
const WEIGHT_UNITS = ['mm', 'deg', 'count', 'level'];

function isWeight(v: unknown): boolean {
  if (!isRecord(v)) return false;
  const { id, label, reason, source, free, weight, unit } = v;
  if (![id, label, reason, source].every((text) => typeof text === 'string')) return false;
  if (!Array.isArray(free) || free.length !== 2) return false;
  const [low, high]: readonly unknown[] = free;
  if (!isNumber(low) || !isNumber(high) || low > high) return false;
  return isNumber(weight) && weight >= 0 && typeof unit === 'string' && WEIGHT_UNITS.includes(unit);
}

function isWeightTable(v: unknown): boolean {
  if (!isRecord(v)) return false;
  const { version, weights } = v;
  return typeof version === 'string' && Array.isArray(weights) && weights.every(isWeight);
}

/** Root of the table: what may be set in a case, by the names of the case file. */
export const EDITABLE_FIELDS: SectionField = section('Case', {
  title: needed(line('Title')),
  side: needed(oneOf('Side of the case', ['right', 'left'])),
  catalogue: line('Catalogue'),
  note: text('Note', 20_000),
  patient: section('Patient', {
    id: text('Patient number'),
    name: text('Patient name'),
    sex: oneOf('Sex', ['female', 'male']),
    birthDate: date('Birth date'),
  }),
  implants: section('Implants in place', {
    femurDistalMm: number('Femoral component, distal thickness', 0, 60, 'mm'),
    femurPosteriorMm: number('Femoral component, posterior thickness', 0, 60, 'mm'),
    femurWidthMm: number('Femoral component, width', 20, 150, 'mm'),
    trayWidthMm: number('Tray, width', 20, 150, 'mm'),
    trayThicknessMm: number('Tray, thickness', 0, 60, 'mm'),
    insertMm: number('Insert, thickness', 0, 60, 'mm'),
    from: text('Where the implant sizes come from', 500),
  }),
  examination: section('Examination', {
    openingExtensionMm: opening('Opening in extension'),
    openingFlexionMm: opening('Opening in flexion'),
    openingSdMm: number('Spread of the openings', 0, 20, 'mm'),
    recurvatumDeg: number('Recurvatum', -60, 60, 'deg'),
    flexionDeg: number('Flexion', 0, 170, 'deg'),
    mcl: ligament('Medial collateral ligament'),
    lcl: ligament('Lateral collateral ligament'),
    extensorMechanism: ligament('Extensor mechanism'),
    filmFlexionDeg: number('Flexion on the long-leg film', -30, 90, 'deg'),
    filmRotationDeg: number('Rotation on the long-leg film', -90, 90, 'deg'),
  }),
  bone: section('Bone', {
    femurClass: boneClass('Femoral bone loss, class'),
    tibiaClass: boneClass('Tibial bone loss, class'),
    femurQuality: boneQuality('Femoral bone quality'),
    tibiaQuality: boneQuality('Tibial bone quality'),
    removalLossMm: section('Loss at removal', {
      femurDistal: number('Loss at removal, distal femur', 0, 60, 'mm'),
      femurPosterior: number('Loss at removal, posterior femur', 0, 60, 'mm'),
      tibia: number('Loss at removal, tibia', 0, 60, 'mm'),
    }),
    femurCanalMm: number('Femoral canal, width', 3, 50, 'mm'),
    tibiaCanalMm: number('Tibial canal, width', 3, 50, 'mm'),
    ...BONE_MAP_FIELDS,
  }),
  settings: section('Settings', {
    correlations: section(
      'Correlations of the joint-line landmarks',
      {
        withinFemur: correlation('Correlation within the femur'),
        withinTibia: correlation('Correlation within the tibia'),
        across: correlation('Correlation across the knee'),
      },
      true,
    ),
    population: oneOf('Population of the ratios', ['pooled', 'european', 'chinese']),
    weights: value('Weights of the objective', 'a table of weights with its version', isWeightTable),
    targetAlignment: oneOf('Target alignment', ['neutral', 'constitutional']),
    targetSlopeDeg: number('Target slope', -10, 20, 'deg'),
    pinned: PINNED_FIELDS,
  }),
  ...SURPRISE_FIELDS,
  interfaceSpans: INTERFACE_SPANS,
  workUp: WORK_UP_FIELDS,
});

/** Steps of a JSON Pointer (RFC 6901), or null where it is none. */
export function pointerSteps(pointer: string): readonly string[] | null {
  if (!pointer.startsWith('/')) return null;
  return pointer
    .slice(1)
    .split('/')
    .map((step) => step.replaceAll('~1', '/').replaceAll('~0', '~'));
}

/** The field that a pointer names, or null: unknown names, `__proto__` among them, lead nowhere. */
export function editableField(pointer: string): EditableField | null {
  let field: EditableField | undefined = EDITABLE_FIELDS;
  for (const step of pointerSteps(pointer) ?? ['']) {
    field = field?.kind === 'section' ? field.fields.get(step) : undefined;
  }
  return field ?? null;
}
