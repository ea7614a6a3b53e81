import { CHARLSON_ITEMS, charlson } from '@gapline/core/host/charlson.ts';
import { hostFindings } from '@gapline/core/host/optimise.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { bodyMassIndex, DRUG_ITEMS, HARD_FEATURES, type History, SYMPTOMS } from '@gapline/core/work-up/history.ts';
import type { WorkUpReading } from '@gapline/core/work-up/read-work-up.ts';
import {
  brief,
  capital,
  fewer,
  holding,
  type Line,
  NOT_ENTERED,
  plain,
  type Room,
  type Section,
  shortened,
} from './letter-words.ts';

const orNone = (lines: readonly Line[], none: Line = NOT_ENTERED): readonly Line[] =>
  lines.length > 0 ? lines : [none];

/** One line, or none where there is nothing to say. */
const said = (strong: string, text: string): readonly Line[] => (text === '' ? [] : [{ strong, text: `${text}.` }]);

const COURSES: Readonly<Record<string, string>> = {
  'never-free': 'never free of pain',
  'free-then-gradual': 'free of pain, then little by little',
  'free-then-sudden': 'free of pain, then suddenly',
  none: 'no pain',
};

/** What happened to the knee and what the patient says. */
export function historySection(h: History, room: Room): Section {
  const operations = (h.operations ?? [])
    .toSorted((a, b) => (a.on ?? '').localeCompare(b.on ?? ''))
    .map((o) => `${o.on || 'undated'} ${plain(o.kind)}${o.note ? ` (${brief(o.note, room.letters)})` : ''}`);
  const course = COURSES[h.painCourse ?? ''] ?? '';
  const months = h.painFreeMonths === undefined || course === '' ? '' : `, ${h.painFreeMonths} months free`;
  const scars = h.scars ?? [];
  const adherent = scars.filter((s) => s.adherent === 'yes').length;
  return {
    title: 'HISTORY',
    lines: orNone([
      ...said('Operations ', shortened(operations, room.entries)),
      ...said('Pain ', `${course}${months}`),
      ...said('Complaints ', lower(shortened(holding(SYMPTOMS, h.symptoms), room.entries + 2))),
      ...said('Denies ', lower(shortened(holding(SYMPTOMS, h.symptoms, 'no'), room.entries + 2))),
      ...said('Scars ', scars.length === 0 ? '' : `${scars.length}${adherent > 0 ? `, ${adherent} adherent` : ''}`),
    ]),
  };
}

const lower = (text: string): string =>
  text.replace(/(^|; )([A-Z])(?=[a-z])/g, (_, before: string, c: string) => before + c.toLowerCase());

const PULSES = { yes: 'foot pulses felt', no: 'FOOT PULSES NOT FELT', unknown: '' } as const;
const SKIN = { yes: 'skin sound', no: 'skin not sound', unknown: '' } as const;

export function examinationSection(file: CaseFile, { stiffness }: WorkUpReading, room: Room): Section {
  const e = file.workUp?.history?.examination ?? {};
  const { openingExtensionMm: at0, openingFlexionMm: at90 } = file.examination ?? {};
  const opened = (at: string, o: { readonly medial: number; readonly lateral: number } | undefined) =>
    o ? [`${at}° medial ${o.medial}, lateral ${o.lateral}`] : [];
  const degrees = (name: string, value: number | undefined) => (value === undefined ? [] : [`${name} ${value}°`]);
  const motion = [
    ...degrees('flexion', e.flexionDeg ?? file.examination?.flexionDeg),
    ...degrees('extension deficit', e.extensionDeficitDeg),
    ...degrees('active lag', e.activeLagDeg),
    ...(stiffness && stiffness.grade !== 'none'
      ? [`stiffness ${stiffness.atLeast ? 'at least ' : ''}${stiffness.grade}`]
      : []),
  ];
  const openings = [...opened('0', at0), ...opened('30', e.opening30Mm), ...opened('90', at90)];
  const signs = [
    PULSES[e.footPulses ?? 'unknown'],
    SKIN[e.skinSound ?? 'unknown'],
    ...(e.hipRotationPainful === 'yes' ? ['hip rotation painful'] : []),
    ...(e.rootSigns === 'yes' ? ['root signs'] : []),
    ...(e.tenderness ? [`tender: ${brief(e.tenderness, room.letters)}`] : []),
  ].filter(Boolean);
  return {
    title: 'EXAMINATION',
    lines: orNone([
      ...said('Motion ', motion.join(', ')),
      ...said('Opening, mm ', openings.join('; ')),
      ...said('Drawer at 90° ', e.drawer90Mm === undefined ? '' : `${e.drawer90Mm} mm`),
      ...said('Signs ', signs.join(', ')),
    ]),
  };
}

export function implantedSection(h: History, room: Room): Section {
  const parts = (h.parts ?? []).map((p): Line => {
    const facts = [
      p.fixation === 'unknown' ? 'fixation not known' : p.fixation,
      p.sizeNote && brief(p.sizeNote, room.letters),
      p.reference && `ref ${brief(p.reference, room.letters)}`,
      p.lot && `lot ${brief(p.lot, room.letters)}`,
      ...(p.features ?? []).map((id) => (HARD_FEATURES.find((f) => f.id === id)?.label ?? id).toUpperCase()),
    ].filter(Boolean);
    return { strong: `${capital(plain(p.part))} `, text: facts.join(', ') };
  });
  return {
    title: 'IN THE KNEE NOW',
    lines: orNone(fewer(parts, room.entries + 2, (more) => ({ text: `and ${more} more parts` }))),
  };
}

/** Whole years between two days; null where either is no day. */
function yearsBetween(birth: string | undefined, day: string): number | null {
  if (!birth || !/^\d{4}-\d{2}-\d{2}$/.test(birth) || birth > day) return null;
  return Number(day.slice(0, 4)) - Number(birth.slice(0, 4)) - (day.slice(5) < birth.slice(5) ? 1 : 0);
}

/** The patient: age stays, for it bears on the decision and names nobody. */
export function patientSection(file: CaseFile, day: string, room: Room): Section {
  const h = file.workUp?.history ?? {};
  const age = yearsBetween(file.patient.birthDate, day);
  const index = charlson(h.charlson ?? {}, age);
  const points = index.ok && h.charlson ? index.value : null;
  const bmi = bodyMassIndex(h.heightCm, h.weightKg);
  const facts = [
    ...(age === null ? [] : [`${age > 89 ? '90 or more' : age} years`]),
    ...(file.patient.sex ? [file.patient.sex] : []),
    ...(h.asa === undefined ? [] : [`ASA ${h.asa}`]),
    ...(bmi === null ? [] : [`body mass index ${bmi.toFixed(1)}`]),
    ...(points
      ? [`Charlson ${points.points}${points.pointsAtMost > points.points ? ` to ${points.pointsAtMost}` : ''}`]
      : []),
  ];
  return {
    title: 'PATIENT',
    lines: orNone([
      ...(facts.length > 0 ? [{ text: `${facts.join(', ')}.` }] : []),
      ...said('Ill with ', lower(shortened(holding(CHARLSON_ITEMS, h.charlson), room.entries))),
      ...said('Drugs, allergies ', lower(shortened(holding(DRUG_ITEMS, h.drugs), room.entries + 2))),
      ...said('', h.drugNotes ? brief(h.drugNotes, 2 * room.letters) : ''),
      ...toCorrect(h, bmi, room),
    ]),
  };
}

function toCorrect(h: History, bmi: number | null, room: Room): readonly Line[] {
  const values = bmi === null ? h.hostValues : { 'bmi-high': bmi, 'bmi-low': bmi, ...h.hostValues };
  const act = hostFindings(values ?? {}, h.surgeryOn ?? null)
    .filter((f) => f.standing === 'act')
    .map((f) => {
      const by = f.beginBy ? `, begin by ${f.beginBy}` : '';
      return `${f.factor.label} ${Number((f.value ?? 0).toPrecision(3))} ${f.factor.unit}${by}`;
    });
  return said('TO CORRECT ', shortened(act, room.entries));
}
