import type { Definition, DefinitionLine } from '../definition.ts';
import { all, any, type Formula, is, not, over } from '../formula.ts';
import {
  ANY_PURULENCE,
  ASPIRATE_GROWTH,
  DEFENSIN,
  FIVE_IN_FIVE,
  SINUS,
  STRIP,
  TISSUE_GROWTH,
  TWO_WITH_SAME_ORGANISM,
} from './cultures.ts';

/** Positive counts +1, negative counts nothing. */
const ruleIn = (id: string, label: string, when: Formula): DefinitionLine => ({
  id: `in-${id}`,
  block: 'Rule in',
  label,
  when,
  met: { balance: 1 },
  known: { insDone: 1 },
});

/** Negative counts -1, positive counts nothing. */
const ruleOut = (id: string, label: string, when: Formula): DefinitionLine => ({
  id: `out-${id}`,
  block: 'Rule out',
  label,
  when,
  notMet: { balance: -1 },
  known: { outsDone: 1 },
});

const SONICATION_GREW = is('sonication', 'a single colony', 'up to the limit', 'over the limit');
const AFTERWARDS_POSITIVE = any(FIVE_IN_FIVE, TWO_WITH_SAME_ORGANISM, SONICATION_GREW);
const ENOUGH = [
  { sum: { insDone: 1 }, atLeast: 2 },
  { sum: { outsDone: 1 }, atLeast: 2 },
] as const;
const EXPLAINED_BELOW_ZERO = [
  ...ENOUGH,
  { sum: { explained: 1 }, atLeast: 1 },
  { sum: { balance: 1 }, below: 0 },
] as const;

const PRESENTATION: readonly DefinitionLine[] = [
  {
    id: 'two-signs',
    block: 'Presentation',
    label: 'Two or more of pain, swelling, redness, warmth, loss of function',
    when: is('local-signs', 'two or more'),
    met: { hot: 1 },
  },
  {
    id: 'unexplained',
    block: 'Presentation',
    label: 'Pain, swelling or stiffness that nothing else explains',
    when: all(is('local-signs', 'one', 'two or more'), is('unexplained', 'yes')),
    met: { unexplained: 1 },
  },
  {
    id: 'explained',
    block: 'Presentation',
    label: 'Another cause explains the symptoms',
    when: is('unexplained', 'no'),
    met: { explained: 1 },
  },
];

const AFTERWARDS: readonly DefinitionLine[] = [
  {
    id: 'after-positive',
    block: 'Afterwards',
    label: 'Histology positive, the same organism twice, or growth after sonication',
    when: AFTERWARDS_POSITIVE,
    met: { proven: 1 },
  },
  {
    id: 'after-single',
    block: 'Afterwards',
    label: 'One positive culture with negative histology',
    when: all(any(ASPIRATE_GROWTH, TISSUE_GROWTH), is('histology', 'negative')),
    met: { single: 1 },
  },
  {
    id: 'after-negative',
    block: 'Afterwards',
    label: 'Cultures of the operation negative',
    when: all(not(TISSUE_GROWTH), not(ASPIRATE_GROWTH)),
    met: { sterile: 1 },
  },
];

export const WAIOT_2019: Definition = {
  id: 'waiot-2019',
  name: 'WAIOT 2019',
  version: '2019',
  source: 'Romano, J Clin Med 2019;8:650',
  trust:
    'Classes read in a reprint of the table; the menu of tests is from memory and must be checked before it is relied on.',
  tallies: {
    balance: [-6, 9],
    insDone: [0, 2],
    outsDone: [0, 2],
    hot: [0, 1],
    unexplained: [0, 1],
    explained: [0, 1],
    proven: [0, 1],
    single: [0, 1],
    sterile: [0, 1],
  },
  lines: [
    ...PRESENTATION,
    ruleIn('visible', 'Sinus, purulence or exposed implant', any(SINUS, ANY_PURULENCE)),
    ruleIn('il-6', 'Interleukin 6 over 10 pg/mL', over('il-6', 10)),
    ruleIn('procalcitonin', 'Procalcitonin over 0.5 ng/mL', over('procalcitonin', 0.5)),
    ruleIn('culture', 'Culture of the aspirate positive', ASPIRATE_GROWTH),
    ruleIn('wbc', 'Synovial white cells over 3,000 /uL', over('synovial-wbc', 3000)),
    ruleIn('strip', 'Leukocyte esterase ++', STRIP),
    ruleIn('alpha-defensin', 'Alpha-defensin positive', DEFENSIN),
    ruleIn('scan', 'White-cell with marrow scintigraphy positive', is('leukocyte-marrow-scan', 'positive')),
    ruleIn('frozen', 'Frozen section positive', FIVE_IN_FIVE),
    ruleOut('esr', 'ESR over 30 mm/h', over('esr', 30)),
    ruleOut('crp', 'CRP over 10 mg/L', over('crp', 10)),
    ruleOut('wbc', 'Synovial white cells over 1,500 /uL', over('synovial-wbc', 1500)),
    ruleOut('strip', 'Leukocyte esterase ++', STRIP),
    ruleOut('alpha-defensin', 'Alpha-defensin positive', DEFENSIN),
    ruleOut('bone-scan', 'Bone scan positive', is('bone-scan', 'positive')),
    ...AFTERWARDS,
  ],
  classes: [
    { id: 'high-grade', label: 'High-grade infection', standing: 'confirmed', rank: 3 },
    { id: 'low-grade', label: 'Low-grade infection', standing: 'confirmed', rank: 2 },
    { id: 'biofilm', label: 'Biofilm-related implant malfunction', standing: 'confirmed', rank: 1 },
    { id: 'contamination', label: 'Contamination', standing: 'excluded', rank: 0 },
    { id: 'no-infection', label: 'No infection', standing: 'excluded', rank: 0 },
    { id: 'by-culture', label: 'Cultures of the operation decide', standing: 'open', rank: 0 },
    {
      id: 'no-row',
      label: 'Not classifiable: presentation and balance fit no row',
      standing: 'not-classifiable',
      rank: 0,
    },
    {
      id: 'too-few',
      label: 'Not classifiable: two tests of either kind are needed',
      standing: 'not-classifiable',
      rank: 0,
    },
  ],
  rules: [
    { gives: 'high-grade', when: [...ENOUGH, { sum: { hot: 1 }, atLeast: 1 }, { sum: { balance: 1 }, atLeast: 1 }] },
    {
      gives: 'low-grade',
      when: [...ENOUGH, { sum: { unexplained: 1 }, atLeast: 1 }, { sum: { balance: 1 }, atLeast: 0 }],
    },
    { gives: 'biofilm', when: [...EXPLAINED_BELOW_ZERO, { sum: { proven: 1 }, atLeast: 1 }] },
    { gives: 'contamination', when: [...EXPLAINED_BELOW_ZERO, { sum: { single: 1 }, atLeast: 1 }] },
    { gives: 'no-infection', when: [...EXPLAINED_BELOW_ZERO, { sum: { sterile: 1 }, atLeast: 1 }] },
    { gives: 'by-culture', when: [...EXPLAINED_BELOW_ZERO] },
    { gives: 'no-row', when: [...ENOUGH] },
    { gives: 'too-few', when: [] },
  ],
  score: { label: 'positive rule-in less negative rule-out', sum: { balance: 1 }, max: 9 },
  madeFor: 'any',
  remark: 'Any test with a specificity (rule in) or sensitivity (rule out) over 90 % may be used; this is one menu.',
};
