import type { Definition, DefinitionLine } from '../definition.ts';
import { type Formula, is, over } from '../formula.ts';
import { ASPIRATE_GROWTH, DEFENSIN, SINUS, TISSUE_GROWTH, TWO_WITH_ONE_AT_OPERATION } from './cultures.ts';

/** One of these is enough. */
const confirms = (id: string, label: string, when: Formula): DefinitionLine => ({
  id,
  block: 'Confirmed by any one',
  label,
  when,
  met: { confirmed: 1 },
  known: { seen: 1 },
});

/** A clinical feature or a raised CRP: counts only together with a test (note a). */
const links = (id: string, label: string, when: Formula): DefinitionLine => ({
  id,
  block: 'Likely: clinical feature or CRP',
  label,
  when,
  met: { links: 1 },
  known: { seen: 1 },
});

/** A positive test: counts only together with a clinical feature or a raised CRP (note a). */
const tests = (id: string, label: string, when: Formula): DefinitionLine => ({
  id,
  block: 'Likely: with a positive test',
  label,
  when,
  met: { tests: 1 },
  known: { seen: 1 },
});

/** Must be known before infection may be called unlikely. INF-7. */
const needed = (line: DefinitionLine): DefinitionLine => ({ ...line, known: { seen: 1, workedUp: 1 } });
const sterile = (line: DefinitionLine): DefinitionLine => ({ ...line, notMet: { sterile: 1 } });

export const EBJIS_2021: Definition = {
  id: 'ebjis-2021',
  name: 'EBJIS 2021',
  version: '2021-01',
  source: 'McNally, Bone Joint J 2021;103-B:18',
  trust: 'Three levels read in the publication; values of the items and footnotes a to j are from memory.',
  tallies: {
    confirmed: [0, 1],
    links: [0, 1],
    tests: [0, 1],
    loose: [0, 1],
    workedUp: [0, 4],
    sterile: [0, 1],
    seen: [0, 1],
  },
  lines: [
    needed(confirms('sinus', 'Sinus tract to the joint, or prosthesis seen', SINUS)),
    confirms('wbc-3000', 'White cells over 3,000 /uL', over('synovial-wbc', 3000)),
    confirms('pmn-80', 'Polymorphonuclear share over 80 %', over('synovial-pmn', 80)),
    confirms('alpha-defensin', 'Alpha-defensin positive', DEFENSIN),
    confirms(
      'two-cultures',
      'Two samples with the same organism, one of them of the operation',
      TWO_WITH_ONE_AT_OPERATION,
    ),
    confirms(
      'sonication-high',
      'Sonication over 50 CFU/mL, over 200 if centrifuged',
      is('sonication', 'over the limit'),
    ),
    confirms(
      'histology-five',
      'Five neutrophils in each of five fields, or organisms seen',
      is('histology', 'five-in-five-fields', 'organisms-seen'),
    ),
    links('loosening', 'Loosening on film within five years of implantation', is('loosening', 'within 5 years')),
    links('wound', 'Earlier trouble with wound healing', is('wound-problem', 'yes')),
    links('fever', 'Recent fever or bacteraemia', is('fever', 'yes')),
    links('purulence', 'Purulence, not with metal reaction or crystals (note b)', is('purulence', 'yes')),
    needed(links('crp', 'CRP over 10 mg/L', over('crp', 10))),
    needed(tests('wbc-1500', 'White cells over 1,500 /uL', over('synovial-wbc', 1500))),
    needed(tests('pmn-65', 'Polymorphonuclear share over 65 %', over('synovial-pmn', 65))),
    sterile(tests('aspirate-culture', 'Culture of the aspirate positive', ASPIRATE_GROWTH)),
    sterile(tests('one-culture', 'A culture of the operation positive', TISSUE_GROWTH)),
    tests('sonication', 'Sonication over 1 CFU/mL', is('sonication', 'up to the limit', 'over the limit')),
    tests(
      'histology-one',
      'Five neutrophils in a single field',
      is('histology', 'five-in-one-field', 'organisms-seen', 'five-in-five-fields'),
    ),
    tests('leukocyte-scan', 'White-cell scintigraphy positive', is('leukocyte-scan', 'positive')),
    {
      id: 'single-colony',
      block: 'Neither',
      label: 'Sonication with a single colony: not sterile, yet below the level that counts',
      when: is('sonication', 'a single colony'),
      met: { loose: 1 },
    },
    {
      id: 'other-cause',
      block: 'Speaks for unlikely',
      label: 'A clear other reason for the trouble',
      when: is('unexplained', 'no'),
    },
    {
      id: 'bone-scan',
      block: 'Speaks for unlikely',
      label: 'Three-phase bone scan negative; a positive one is no criterion',
      when: is('bone-scan', 'negative'),
    },
  ],
  classes: [
    { id: 'confirmed', label: 'Infection confirmed', standing: 'confirmed', rank: 3 },
    { id: 'likely', label: 'Infection likely', standing: 'open', rank: 2 },
    {
      id: 'gap',
      label: 'Not classifiable: positive findings, but not the two asked for',
      standing: 'not-classifiable',
      rank: 1,
    },
    { id: 'unlikely', label: 'Infection unlikely', standing: 'excluded', rank: 0 },
    { id: 'insufficient', label: 'Not classifiable: work-up incomplete', standing: 'not-classifiable', rank: 0 },
    { id: 'not-assessed', label: 'Not assessed', standing: 'not-assessed', rank: 0 },
  ],
  rules: [
    { gives: 'confirmed', when: [{ sum: { confirmed: 1 }, atLeast: 1 }] },
    {
      gives: 'likely',
      when: [
        { sum: { links: 1 }, atLeast: 1 },
        { sum: { tests: 1 }, atLeast: 1 },
      ],
    },
    { gives: 'gap', when: [{ sum: { links: 1, tests: 1, loose: 1 }, atLeast: 1 }] },
    {
      gives: 'unlikely',
      when: [
        { sum: { workedUp: 1 }, atLeast: 4 },
        { sum: { sterile: 1 }, atLeast: 1 },
      ],
    },
    { gives: 'not-assessed', when: [{ sum: { seen: 1 }, below: 1 }] },
    { gives: 'insufficient', when: [] },
  ],
  score: null,
  madeFor: 'any',
  remark:
    'White cells and their share are two readings of one tap; two synovial findings alone are not likely (note a).',
};
