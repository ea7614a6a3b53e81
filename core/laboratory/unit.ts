import { cannot, type Outcome, ok, type Warning } from '../measure/outcome.ts';
import { ANALYTE_IDS, type AnalyteId, analyte } from './analyte.ts';

interface Conversion {
  /** Spellings after `plainUnit`. */
  readonly spelt: readonly string[];
  /** Standard value = value times factor. */
  readonly factor: number;
  readonly warning?: 'approximate-ddu' | 'kind-not-stated' | 'per-ml-count';
}

const MASS_PER_VOLUME: readonly Conversion[] = [
  { spelt: ['mg/l', 'ug/ml'], factor: 1 },
  { spelt: ['mg/dl'], factor: 10 },
];
const CELLS: readonly Conversion[] = [
  { spelt: ['/ul', 'cells/ul', '/mm3', 'cells/mm3', '10*6/l'], factor: 1 },
  { spelt: ['10*9/l', '10*3/ul', 'g/l', 'k/ul', '1000/ul'], factor: 1000 },
  { spelt: ['/ml', 'cells/ml'], factor: 0.001, warning: 'per-ml-count' },
];
const RED_CELLS: readonly Conversion[] = [
  ...CELLS,
  { spelt: ['10*12/l', '10*6/ul', 't/l', 'm/ul'], factor: 1_000_000 },
];
const SHARE: readonly Conversion[] = [
  { spelt: ['%', 'percent'], factor: 1 },
  { spelt: ['1', 'fraction'], factor: 100 },
];

/** LAB-3: units by analyte. FEU is about twice DDU (from memory); a D-dimer of unstated kind is compared as it stands. */
export const UNITS: Readonly<Record<AnalyteId, readonly Conversion[]>> = {
  crp: MASS_PER_VOLUME,
  'synovial-crp': MASS_PER_VOLUME,
  esr: [{ spelt: ['mm/h', 'mm/hr', 'mm/1h', 'mm/hour'], factor: 1 }],
  'd-dimer': [
    { spelt: ['ng/mlfeu', 'ug/lfeu'], factor: 1 },
    { spelt: ['ug/mlfeu', 'mg/lfeu'], factor: 1000 },
    { spelt: ['ng/mlddu', 'ug/lddu'], factor: 2, warning: 'approximate-ddu' },
    { spelt: ['ug/mlddu', 'mg/lddu'], factor: 2000, warning: 'approximate-ddu' },
    { spelt: ['ng/ml', 'ug/l'], factor: 1, warning: 'kind-not-stated' },
    { spelt: ['ug/ml', 'mg/l'], factor: 1000, warning: 'kind-not-stated' },
  ],
  'il-6': [{ spelt: ['pg/ml', 'ng/l'], factor: 1 }],
  procalcitonin: [{ spelt: ['ng/ml', 'ug/l'], factor: 1 }],
  fibrinogen: [
    { spelt: ['g/l'], factor: 1 },
    { spelt: ['mg/dl'], factor: 0.01 },
  ],
  'blood-wbc': CELLS,
  'synovial-wbc': CELLS,
  'blood-rbc': RED_CELLS,
  'synovial-rbc': RED_CELLS,
  'blood-neutrophils': SHARE,
  'synovial-pmn': SHARE,
  calprotectin: [],
  'leukocyte-esterase': [],
  'alpha-defensin': [{ spelt: ['s/co', 'ratio'], factor: 1 }],
};

const WARNINGS: Readonly<Record<NonNullable<Conversion['warning']>, string>> = {
  'approximate-ddu': 'Converted from DDU to FEU by a factor of 2, which is approximate and depends on the assay.',
  'kind-not-stated': 'The unit does not say FEU or DDU; the value is compared as it stands and may be off by 2.',
  'per-ml-count': 'Cells per mL is often a misprint for cells per microlitre; check the report.',
};

export interface InStandardUnit {
  readonly value: number;
  readonly unit: string;
  /** What was done, in words for the screen, e.g. `1.2 mg/dL x 10 = 12 mg/L`; null where nothing was. */
  readonly conversion: string | null;
}

/**
 * A value in the analyte's standard unit. `value` in `unit`; refuses a missing unit and one that is none of this
 * analyte's, naming those that are (LAB-3). Doubtful conversions carry a warning. Zero stays zero.
 */
export function toStandardUnit(id: AnalyteId, value: number, unit: string | undefined): Outcome<InStandardUnit> {
  const standard = analyte(id).unit;
  const field = `${id}.unit`;
  if (standard === null || unit === undefined || unit.trim() === '')
    return cannot({
      code: standard === null ? 'result-is-a-word' : 'no-unit',
      message: `${analyte(id).label} ${value} has no unit${standard === null ? ': it is read as a word' : ''}.`,
      field,
      mend: standard === null ? 'Choose one of the words of this test.' : `Give the unit, e.g. ${standard}.`,
    });
  const found = UNITS[id].find((c) => c.spelt.includes(plainUnit(unit)));
  if (!found) {
    const others = ANALYTE_IDS.filter((o) => UNITS[o].some((c) => c.spelt.includes(plainUnit(unit))));
    const hint = others.length > 0 ? ` It is a unit of ${others.map((o) => analyte(o).label).join(', ')}.` : '';
    return cannot({
      code: 'unit-of-another-analyte',
      message: `${unit} is no unit of ${analyte(id).label}.${hint}`,
      field,
      mend: `Use one of: ${UNITS[id].map((c) => c.spelt[0]).join(', ')}.`,
    });
  }
  const converted = value * found.factor;
  const warnings: Warning[] = found.warning ? [{ code: found.warning, message: WARNINGS[found.warning], field }] : [];
  const conversion = found.factor === 1 ? null : `${value} ${unit} x ${found.factor} = ${converted} ${standard}`;
  return ok({ value: converted, unit: standard, conversion }, warnings);
}

/** One spelling for the many in use: micro signs, powers of ten, braces, spaces and capitals are levelled. */
export const plainUnit = (unit: string): string =>
  unit
    .toLowerCase()
    .replace(/[µμ]/g, 'u')
    .replace(/³/g, '3')
    .replace(/⁹/g, '^9')
    .replace(/[\s{}[\]()]/g, '')
    .replace(/^[x×*·](?=1)/, '')
    .replace(/10(?:\^|\*\*|e)(?=\d)/, '10*')
    .replace(/mcg/g, 'ug');
