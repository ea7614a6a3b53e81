import { daysBetween } from '../laboratory/day.ts';
import type { Known } from '../measure/known.ts';
import type { DefinitionId } from './definition.ts';
import type { InfectionFindings } from './findings.ts';
import type { LabAnswer } from './observe-lab.ts';
import type { TestId } from './tests.ts';

/** Something that makes a result or a class harder to trust. It stands beside the score and never changes it. */
export interface Caution {
  readonly id: string;
  readonly text: string;
  readonly source: string;
  /** Tests whose results it touches; empty = the definitions as a whole. */
  readonly tests: readonly TestId[];
  /** Definitions that name it themselves; empty = none does, or all are touched. */
  readonly namedBy: readonly DefinitionId[];
}

interface Rule extends Caution {
  readonly when: (f: InfectionFindings, at: At) => boolean;
}

interface At {
  readonly decisionOn: string;
  readonly lab: readonly LabAnswer[];
}

const yes = (known: Known | undefined): boolean => known === 'yes';
const CELL_TESTS: readonly TestId[] = ['synovial-wbc', 'synovial-pmn'];
const used = (at: At, test: TestId) => at.lab.find((a) => a.test === test);
const since = (f: InfectionFindings, at: At): number | null =>
  f.lastOperationOn === undefined ? null : daysBetween(f.lastOperationOn, at.decisionOn);
const within = (days: number | null, limit: number): boolean => days !== null && days >= 0 && days < limit;

/** INF-13: the cautions, in the order in which they are shown. */
const RULES: readonly Rule[] = [
  {
    id: 'spacer',
    text: 'A spacer is in place: no definition has been validated for it.',
    source: 'No definition covers it (review of readiness for reimplantation, from memory)',
    tests: [],
    namedBy: [],
    when: (f) => yes(f.context?.spacerInPlace),
  },
  {
    id: 'crystals',
    text: 'Crystals in the aspirate can raise every marker, alpha-defensin too. They do not exclude infection: 4 of 30 reported knees with crystals were infected as well.',
    source: 'Published case series, 30 knees; notes b, c and e of EBJIS 2021 (from memory)',
    tests: ['crp', 'esr', ...CELL_TESTS, 'alpha-defensin', 'purulence'],
    namedBy: ['parvizi-2018', 'ebjis-2021'],
    when: (f) => yes(f.context?.crystals),
  },
  {
    id: 'metal-reaction',
    text: 'With an adverse reaction to metal fluid may look like pus, machine counts read too high and alpha-defensin is not valid. Ask for a count by hand.',
    source: 'Notes b and e of EBJIS 2021 (from memory)',
    tests: [...CELL_TESTS, 'alpha-defensin', 'purulence'],
    namedBy: ['parvizi-2018', 'icm-2018-proposed', 'ebjis-2021'],
    when: (f) => yes(f.context?.metalReaction),
  },
  {
    id: 'early',
    text: 'Less than 90 days since the last operation: serum and synovial markers are raised without infection, ESR and D-dimer are of no use, and limits made for chronic infection do not hold.',
    source: 'Bedair, Clin Orthop Relat Res 2011;469:34; footnote of Shohat, J Arthroplasty 2019;34:S325',
    tests: ['crp', 'esr', 'd-dimer', ...CELL_TESTS],
    namedBy: ['icm-2013', 'icm-2018-proposed', 'ebjis-2021'],
    when: (f, at) => within(since(f, at), 90),
  },
  {
    id: 'sudden-onset',
    text: 'Sudden onset in a joint that was well is not "early after operation": the limits for the first 90 days are not used for it.',
    source: 'Reading of the definitions; common practice, no source',
    tests: ['crp', ...CELL_TESTS],
    namedBy: [],
    when: (f, at) => yes(f.context?.suddenOnset) && !within(since(f, at), 90),
  },
  {
    id: 'inflammatory-disease',
    text: 'Active inflammatory joint disease raises CRP, ESR and the cell count; alpha-defensin may be positive without infection.',
    source: 'Notes c and e of EBJIS 2021 (from memory); J Bone Jt Infect 2025;10:165',
    tests: ['crp', 'esr', ...CELL_TESTS, 'alpha-defensin'],
    namedBy: ['ebjis-2021'],
    when: (f) => yes(f.context?.inflammatoryDisease),
  },
  {
    id: 'fracture',
    text: 'A fracture at the prosthesis raises CRP and the cell count without infection.',
    source: 'Note c of EBJIS 2021 (from memory)',
    tests: ['crp', ...CELL_TESTS, 'histology'],
    namedBy: ['ebjis-2021'],
    when: (f) => yes(f.context?.fracture),
  },
  {
    id: 'haematoma',
    text: 'Alpha-defensin is not valid with a haematoma.',
    source: 'Note e of EBJIS 2021 (from memory)',
    tests: ['alpha-defensin'],
    namedBy: ['ebjis-2021'],
    when: (f) => yes(f.context?.haematoma),
  },
  {
    id: 'antibiotics-before-tap',
    text: 'Antibiotics within 14 days before the tap: a culture without growth does not speak against infection. Molecular methods may help.',
    source: 'Osmon, Clin Infect Dis 2013;56:e1; note f of EBJIS 2021 (from memory)',
    tests: ['aspirate-culture', 'tissue-culture', 'sonication'],
    namedBy: ['idsa-2013', 'ebjis-2021'],
    when: (f) => yes(f.context?.antibioticsBeforeTap),
  },
  {
    id: 'blood-stained',
    text: 'The aspirate is blood-stained and could not be corrected: count red cells in fluid and blood. A strip must be read after centrifugation.',
    source: 'Ghanem, J Bone Joint Surg Am 2008;90:1637; note d of EBJIS 2021 (from memory)',
    tests: [...CELL_TESTS, 'leukocyte-esterase'],
    namedBy: ['ebjis-2021'],
    when: (f, at) => yes(f.context?.bloodStainedAspirate) && !used(at, 'synovial-wbc')?.corrected,
  },
  {
    id: 'slow-organism',
    text: 'Slow organisms (Cutibacterium, Brucella, fungi, mycobacteria) give low markers and a negative alpha-defensin: ask for long and special cultures.',
    source: 'Remark of the 2018 definition; Case Rep Infect Dis 2019 (Brucella with negative alpha-defensin)',
    tests: ['crp', 'esr', ...CELL_TESTS, 'alpha-defensin', 'aspirate-culture', 'tissue-culture'],
    namedBy: ['parvizi-2018'],
    when: (f) => yes(f.context?.slowOrganismSuspected),
  },
  {
    id: 'dry-tap',
    text: 'The tap was dry: synovial tests are missing, not negative. Repeat it, or rely on what is found at operation.',
    source: 'Parvizi, J Arthroplasty 2018;33:1309',
    tests: [...CELL_TESTS, 'leukocyte-esterase', 'alpha-defensin', 'synovial-crp', 'aspirate-culture'],
    namedBy: ['parvizi-2018'],
    when: (f) => f.tap === 'dry',
  },
  {
    id: 'lavage',
    text: 'Fluid was washed out with saline: its counts are diluted and not to be compared with limits.',
    source: 'Note d of EBJIS 2021 (from memory)',
    tests: [...CELL_TESTS, 'synovial-crp', 'alpha-defensin', 'leukocyte-esterase'],
    namedBy: ['ebjis-2021'],
    when: (f) => f.tap === 'lavage',
  },
  {
    id: 'repeated-taps',
    text: 'The joint was tapped more than once. Between two taps of joints without infection the count crossed a limit in up to 20 %.',
    source: 'Bone Jt Open 2021, 40 knees, mean 50 days apart',
    tests: CELL_TESTS,
    namedBy: [],
    when: (_, at) => used(at, 'synovial-wbc')?.inUse.others.some((o) => o.why === 'older') ?? false,
  },
  {
    id: 'lateral-flow',
    text: 'Alpha-defensin was read from a lateral-flow device, which misses about 15 %; a negative one excludes nothing.',
    source: 'J Orthop Surg Res 2019;14:309 (meta-analysis)',
    tests: ['alpha-defensin'],
    namedBy: [],
    when: (_, at) => used(at, 'alpha-defensin')?.inUse.used.some((r) => r.entered.method === 'lateral-flow') ?? false,
  },
  {
    id: 'd-dimer-assay',
    text: 'The D-dimer limit of 860 ng/mL comes from one assay; serum reads higher than plasma, and later series found it less accurate.',
    source: 'Meta-analysis of 10 studies, J Orthop Surg Res 2022',
    tests: ['d-dimer'],
    namedBy: [],
    when: (_, at) => used(at, 'd-dimer') !== undefined,
  },
];

/** The cautions that apply to a record. Their order is fixed; none of them changes a class or a point. */
export function cautions(findings: InfectionFindings, at: At): readonly Caution[] {
  return RULES.filter((rule) => rule.when(findings, at)).map(({ when: _, ...caution }) => caution);
}
