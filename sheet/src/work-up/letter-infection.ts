import { SHOWN_FIRST } from '@gapline/core/infection/definitions/definitions.ts';
import type { CultureSample } from '@gapline/core/infection/findings.ts';
import { nextTests } from '@gapline/core/infection/next-test.ts';
import type { LabAnswer } from '@gapline/core/infection/observe-lab.ts';
import { TESTS, type TestId } from '@gapline/core/infection/tests.ts';
import { type AnalyteId, analyte } from '@gapline/core/laboratory/analyte.ts';
import type { LabReading } from '@gapline/core/laboratory/lab-result.ts';
import type { WorkUpReading } from '@gapline/core/work-up/read-work-up.ts';
import type { WorkUp } from '@gapline/core/work-up/work-up.ts';
import {
  brief,
  fewer,
  type Line,
  NOT_ENTERED,
  plain,
  type Room,
  type Row,
  type Section,
  shortened,
} from './letter-words.ts';

/** Classes by the definitions shown first, each a row; the others in one line; what each is worth is told beside it. */
export function definitionsSection({ infection }: WorkUpReading): Section {
  const first = infection.assessments.filter((a) => SHOWN_FIRST.includes(a.definition));
  const rest = infection.assessments.filter((a) => !SHOWN_FIRST.includes(a.definition));
  return {
    title: 'INFECTION, BY DEFINITION',
    rows: first.map((a): Row => {
      const points = a.score ? [`${a.score.soFar} points (${a.score.atLeast} to ${a.score.atMost})`] : [];
      const range = a.range === 'outside' && !a.byMajor ? ['outside its range'] : [];
      return {
        label: a.name,
        value: a.class.label,
        note: [...points, ...range, a.settled ? 'settled' : 'not settled'].join(', '),
      };
    }),
    lines: [{ strong: 'Others ', text: `${rest.map((a) => `${a.name}: ${lowerFirst(a.class.label)}`).join('; ')}.` }],
  };
}

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** Four figures at most, thousands apart: 4,400,000. */
const number = (value: number): string => {
  const [whole = '', part] = String(Number(value.toPrecision(4))).split('.');
  const apart = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return part === undefined ? apart : `${apart}.${part}`;
};

const shown = ({ of, unit }: LabReading): string =>
  of.kind === 'word' ? of.word : `${of.comparator ?? ''}${number(of.value)} ${unit ?? ''}`.trim();

/** Raw and, where blood was taken out, corrected: both are told. */
function corrected(answer: LabAnswer): string {
  if (!answer.corrected) return '';
  if (answer.test === 'synovial-wbc') return `; ${Math.round(answer.corrected.wbc)} without blood`;
  const { pmnPercent } = answer.corrected;
  return answer.test === 'synovial-pmn' && pmnPercent !== null ? `; ${Math.round(pmnPercent)} without blood` : '';
}

/** Labels that fit a narrow column. */
const SHORT: Readonly<Partial<Record<TestId, string>>> = {
  'synovial-wbc': 'White cells, tap',
  'synovial-pmn': 'PMN share, tap',
  'synovial-crp': 'CRP, tap',
  'leukocyte-esterase': 'Esterase, tap',
};

function rowOf(answer: LabAnswer): Row {
  const { used, others } = answer.inUse;
  const older = others.filter((o) => o.why === 'older').length;
  return {
    label: SHORT[answer.test] ?? TESTS[answer.test].label,
    value: used.length === 0 ? 'none usable' : `${used.map(shown).join(' / ')}${corrected(answer)}`,
    note: `${used[0]?.takenOn ?? 'undated'}${older > 0 ? `, ${older} older` : ''}`,
  };
}

const FOR_CORRECTION: readonly AnalyteId[] = ['blood-wbc', 'blood-rbc', 'blood-neutrophils', 'synovial-rbc'];

/** Analytes that no test of a definition reads by itself: told, so that nothing that was entered is dropped. */
function alsoEntered({ infection }: WorkUpReading): readonly Line[] {
  const answered = new Set<string>(infection.observed.lab.map((a) => a.test));
  // Blood and red cells are told by the corrected counts.
  if (infection.observed.lab.some((a) => a.corrected)) for (const id of FOR_CORRECTION) answered.add(id);
  const left = [...infection.observed.series.readings].filter(([id]) => !answered.has(id));
  const told = left.map(([id, readings]) => {
    const newest = readings.at(-1);
    return newest ? `${lowerFirst(analyte(id).label)} ${shown(newest)} (${newest.takenOn ?? 'undated'})` : '';
  });
  return told.length === 0 ? [] : [{ strong: 'Also ', text: `${told.join('; ')}.` }];
}

/** Results that were entered and are used for nothing, by name with why. */
function marked({ infection }: WorkUpReading, room: Room): readonly Line[] {
  const told = infection.observed.series.marked.map((m) => {
    const label = analyte(m.entered.analyte as AnalyteId).label;
    return `${label} ${m.entered.value} ${m.entered.unit ?? ''}`
      .trim()
      .concat(`: ${WHY[m.reason.code] ?? plain(m.reason.code)}`);
  });
  return told.length === 0 ? [] : [{ strong: 'Not used ', text: `${shortened(told, room.entries)}.` }];
}

const WHY: Readonly<Record<string, string>> = {
  'no-unit': 'no unit',
  'impossible-date': 'no such day',
  'future-result': 'in the future',
  'negative-value': 'negative',
  'percent-over-100': 'over 100 %',
  'two-values-for-one-sample': 'two values for one sample',
};

function cultureLine(cultures: readonly CultureSample[] | undefined, room: Room): readonly Line[] {
  const told = (cultures ?? []).map((c) => {
    const organisms = (c.organisms ?? []).map((o) => brief(o.name, room.letters)).filter(Boolean);
    const grew =
      c.growth === 'growth' ? organisms.join(' and ') || 'growth' : c.growth === 'none' ? 'no growth' : 'not read yet';
    return `${c.from} ${c.takenOn || 'undated'} ${grew}`;
  });
  return told.length === 0
    ? [{ strong: 'Cultures ', text: 'none entered.' }]
    : [{ strong: 'Cultures ', text: `${shortened(told, room.entries + 1)}.` }];
}

const SIGNS = [
  ['sinus', 'sinus'],
  ['purulence', 'purulence'],
  ['woundHealingProblem', 'wound trouble'],
  ['feverOrBacteraemia', 'fever or bacteraemia'],
] as const;

function signLine(found: WorkUp['infection']): readonly Line[] {
  const told = SIGNS.flatMap(([field, label]) => {
    const known = found?.[field];
    return known === 'yes' ? [label.toUpperCase()] : known === 'no' ? [`no ${label}`] : [];
  });
  const tap = found?.tap === undefined || found.tap === 'unknown' ? [] : [`tap: ${found.tap}`];
  const histology =
    found?.histology === undefined || found.histology === 'unknown' ? [] : [`histology: ${plain(found.histology)}`];
  const all = [...told, ...tap, ...histology];
  return all.length === 0 ? [] : [{ strong: 'Signs ', text: `${all.join(', ')}.` }];
}

export function resultsSection(record: WorkUp, reading: WorkUpReading, room: Room): Section {
  const rows = reading.infection.observed.lab.map(rowOf);
  const lines = [
    ...alsoEntered(reading),
    ...cultureLine(record.infection?.cultures, room),
    ...signLine(record.infection),
    ...marked(reading, room),
  ];
  return { title: 'RESULTS', rows, lines: rows.length === 0 ? [NOT_ENTERED, ...lines] : lines };
}

/** Cautions stand beside the classes and never changed them. */
export function cautionsSection({ infection }: WorkUpReading, room: Room): Section {
  const lines = infection.cautions.map((c): Line => ({ text: brief(c.text, 2 * room.letters).concat('.') }));
  return {
    title: 'CAUTIONS',
    lines:
      lines.length === 0
        ? [{ text: 'None of the known ones applies.' }]
        : fewer(lines, room.entries, (n) => ({ text: `and ${n} more.` })),
  };
}

export function wouldChangeSection({ infection }: WorkUpReading, room: Room): Section {
  const { tests } = nextTests(infection.observed.known, { horizon: 'before', definitions: SHOWN_FIRST });
  const alone = tests.filter((t) => t.changesAtOnce.length > 0).map((t) => lowerWord(t.label));
  return {
    title: 'WHAT WOULD CHANGE THIS',
    lines: [
      alone.length > 0
        ? { strong: 'A result by itself ', text: `${shortened(alone, room.entries + 1)}.` }
        : { text: 'No single result to be had before the operation.' },
      {
        text: 'At operation: cultures, histology, sonication.',
      },
    ],
  };
}

const lowerWord = (label: string): string => (/^[A-Z][a-z]/.test(label) ? lowerFirst(label) : label);
