/** When a test can be had: at the desk and by needle, or only with the joint open. */
export type TestStage = 'before' | 'during';

interface NumericTest {
  readonly label: string;
  readonly stage: TestStage;
  readonly unit: string;
}

interface NamedTest {
  readonly label: string;
  readonly stage: TestStage;
  /** Possible results, from least to most in favour of infection. */
  readonly results: readonly string[];
}

const YES_NO = ['no', 'yes'];
const SIGN = ['negative', 'positive'];

/**
 * INF-1: every fact that a definition may ask for. Numbers are cut at the definitions' own limits; named results stand in
 * order from least to most in favour of infection. The order of this table is the order of every answer.
 */
export const TESTS = {
  sinus: { label: 'Sinus tract to the joint, or prosthesis seen', stage: 'before', results: YES_NO },
  crp: { label: 'CRP', stage: 'before', unit: 'mg/L' },
  esr: { label: 'ESR', stage: 'before', unit: 'mm/h' },
  'd-dimer': { label: 'D-dimer', stage: 'before', unit: 'ng/mL' },
  'il-6': { label: 'Interleukin 6', stage: 'before', unit: 'pg/mL' },
  procalcitonin: { label: 'Procalcitonin', stage: 'before', unit: 'ng/mL' },
  'synovial-wbc': { label: 'White cells in the aspirate', stage: 'before', unit: '/uL' },
  'synovial-pmn': { label: 'Polymorphonuclear share in the aspirate', stage: 'before', unit: '%' },
  'leukocyte-esterase': { label: 'Leukocyte esterase strip', stage: 'before', results: ['below ++', '++ or more'] },
  'alpha-defensin': { label: 'Alpha-defensin', stage: 'before', results: SIGN },
  'synovial-crp': { label: 'CRP in the aspirate', stage: 'before', unit: 'mg/L' },
  'aspirate-culture': {
    label: 'Culture of the aspirate',
    stage: 'before',
    results: ['no growth', 'growth', 'growth, virulent', 'same organism in two taps'],
  },
  loosening: {
    label: 'Loosening on film',
    stage: 'before',
    results: ['none', 'later than 5 years', 'within 5 years'],
  },
  'wound-problem': { label: 'Earlier trouble with wound healing', stage: 'before', results: YES_NO },
  fever: { label: 'Recent fever or bacteraemia', stage: 'before', results: YES_NO },
  'local-signs': {
    label: 'Local signs: pain, swelling, redness, warmth, loss of function',
    stage: 'before',
    results: ['none', 'one', 'two or more'],
  },
  unexplained: { label: 'Symptoms without another cause', stage: 'before', results: YES_NO },
  'bone-scan': { label: 'Three-phase bone scan', stage: 'before', results: SIGN },
  'leukocyte-scan': { label: 'White-cell scintigraphy', stage: 'before', results: SIGN },
  'leukocyte-marrow-scan': { label: 'White-cell with marrow scintigraphy', stage: 'before', results: SIGN },
  purulence: {
    label: 'Purulence around the prosthesis',
    stage: 'during',
    results: ['no', 'with metal reaction', 'with crystals', 'yes'],
  },
  histology: {
    label: 'Histology at x 400',
    stage: 'during',
    results: ['negative', 'five-in-one-field', 'organisms-seen', 'five-in-five-fields'],
  },
  'tissue-culture': {
    label: 'Cultures of fluid and tissue taken at operation',
    stage: 'during',
    results: [
      'no growth',
      'growth',
      'growth, virulent',
      'same organism as the aspirate',
      'same organism as the aspirate, virulent',
      'same organism in two samples',
    ],
  },
  sonication: {
    label: 'Sonication of the implant',
    stage: 'during',
    results: ['no growth', 'a single colony', 'up to the limit', 'over the limit'],
  },
  // Not a test but the answer to "how long since the last operation"; it selects a definition's own limits.
  phase: { label: 'Less than 90 days since the last operation', stage: 'before', results: ['chronic', 'acute'] },
} as const satisfies Record<string, NumericTest | NamedTest>;

export type TestId = keyof typeof TESTS;

export const TEST_IDS = Object.keys(TESTS) as readonly TestId[];
