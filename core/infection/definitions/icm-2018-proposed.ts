import type { Definition, DefinitionLine } from '../definition.ts';
import { any, type Formula, is, over } from '../formula.ts';
import { byPhase, DEFENSIN, FIVE_IN_FIVE, SINGLE_GROWTH, SINUS, STRIP, TWO_WITH_SAME_ORGANISM } from './cultures.ts';

const line = (
  at: Pick<DefinitionLine, 'id' | 'label'> & { points: number | 'major' },
  when: Formula,
  more: Partial<DefinitionLine> = {},
): DefinitionLine => ({
  id: at.id,
  block: at.points === 'major' ? 'Major' : 'Minor',
  label: at.label,
  when,
  met: at.points === 'major' ? { major: 1 } : { points: at.points },
  known: { seen: 1 },
  ...more,
});

const CRP = byPhase({ chronic: over('crp', 10), acute: over('crp', 100) });
const D_DIMER = byPhase({ chronic: over('d-dimer', 860) });
const WBC = byPhase({ chronic: over('synovial-wbc', 3000), acute: over('synovial-wbc', 10_000) });

export const ICM_2018_PROPOSED: Definition = {
  id: 'icm-2018-proposed',
  name: 'Proposed ICM 2018',
  version: '2018-proposed',
  source: 'Shohat, J Arthroplasty 2019;34:S325',
  trust: 'Table read in a reprint.',
  tallies: { major: [0, 1], points: [0, 16], seen: [0, 1] },
  lines: [
    line({ id: 'two-cultures', label: 'Two cultures with the same organism', points: 'major' }, TWO_WITH_SAME_ORGANISM),
    line({ id: 'sinus', label: 'Sinus tract to the joint, or prosthesis seen', points: 'major' }, SINUS),
    line({ id: 'crp-d-dimer', label: 'CRP or D-dimer', points: 2 }, any(CRP, D_DIMER), {
      parts: [
        { label: 'CRP over 10 mg/L; within 90 days over 100', when: CRP },
        { label: 'D-dimer over 860 ng/mL; within 90 days no limit is known', when: D_DIMER },
      ],
    }),
    line(
      { id: 'esr', label: 'ESR over 30 mm/h; within 90 days no part', points: 1 },
      byPhase({ chronic: over('esr', 30) }),
    ),
    line({ id: 'fluid', label: 'White cells, strip or alpha-defensin', points: 3 }, any(WBC, STRIP, DEFENSIN), {
      parts: [
        { label: 'White cells over 3,000 /uL; within 90 days over 10,000', when: WBC },
        { label: 'Leukocyte esterase ++', when: STRIP },
        { label: 'Alpha-defensin positive', when: DEFENSIN },
      ],
    }),
    line(
      { id: 'pmn', label: 'Polymorphonuclear share over 70 %; within 90 days over 90', points: 2 },
      byPhase({ chronic: over('synovial-pmn', 70), acute: over('synovial-pmn', 90) }),
    ),
    line({ id: 'one-culture', label: 'A single positive culture', points: 2 }, SINGLE_GROWTH, {
      yieldsTo: 'two-cultures',
    }),
    line({ id: 'histology', label: 'More than five neutrophils a field in five fields', points: 3 }, FIVE_IN_FIVE),
    line(
      { id: 'purulence', label: 'Purulence; no part with an adverse reaction to metal', points: 3 },
      is('purulence', 'with crystals', 'yes'),
    ),
  ],
  classes: [
    { id: 'infected', label: 'Infected', standing: 'confirmed', rank: 2 },
    { id: 'inconclusive', label: 'Inconclusive', standing: 'open', rank: 1 },
    { id: 'not-infected', label: 'Not infected', standing: 'excluded', rank: 0 },
    { id: 'not-assessed', label: 'Not assessed', standing: 'not-assessed', rank: 0 },
  ],
  rules: [
    { gives: 'infected', when: [{ sum: { major: 1 }, atLeast: 1 }] },
    { gives: 'infected', when: [{ sum: { points: 1 }, atLeast: 6 }] },
    { gives: 'inconclusive', when: [{ sum: { points: 1 }, atLeast: 3 }] },
    { gives: 'not-assessed', when: [{ sum: { seen: 1 }, below: 1 }] },
    { gives: 'not-infected', when: [] },
  ],
  score: { label: 'points', sum: { points: 1 }, max: 16 },
  madeFor: 'has-acute-limits',
  remark: 'A different table from the 2018 definition; never validated within 90 days (its own footnote).',
};
