import type { Definition, DefinitionLine } from '../definition.ts';
import { all, any, type Formula, over } from '../formula.ts';
import { byPhase, FIVE_IN_FIVE, SINGLE_GROWTH, SINUS, STRIP, TWO_WITH_SAME_ORGANISM } from './cultures.ts';

const line = (
  at: Pick<DefinitionLine, 'id' | 'block' | 'label'>,
  when: Formula,
  more: Partial<DefinitionLine> = {},
): DefinitionLine => ({
  ...at,
  when,
  met: at.block === 'Major' ? { major: 1 } : { minor: 1 },
  known: { seen: 1 },
  ...more,
});

const WBC = byPhase({ chronic: over('synovial-wbc', 3000), acute: over('synovial-wbc', 10_000) });

export const ICM_2013: Definition = {
  id: 'icm-2013',
  name: 'ICM 2013',
  version: '2013',
  source: 'Zmistowski, J Orthop Res 2014; Parvizi, J Arthroplasty 2014;29:1331',
  trust: 'Table read in a reprint; that ESR has no limit within 90 days is from memory.',
  tallies: { major: [0, 1], minor: [0, 5], seen: [0, 1] },
  lines: [
    line({ id: 'sinus', block: 'Major', label: 'Sinus tract that reaches the joint' }, SINUS),
    line({ id: 'two-cultures', block: 'Major', label: 'Two cultures with the same organism' }, TWO_WITH_SAME_ORGANISM),
    line(
      { id: 'serum', block: 'Minor', label: 'CRP over 10 mg/L and ESR over 30 mm/h; within 90 days CRP over 100' },
      byPhase({ chronic: all(over('crp', 10), over('esr', 30)), acute: over('crp', 100) }),
    ),
    line({ id: 'wbc', block: 'Minor', label: 'Synovial white cells, or strip' }, any(WBC, STRIP), {
      parts: [
        { label: 'White cells over 3,000 /uL; within 90 days over 10,000', when: WBC },
        { label: 'Leukocyte esterase ++', when: STRIP },
      ],
    }),
    line(
      { id: 'pmn', block: 'Minor', label: 'Polymorphonuclear share over 80 %; within 90 days over 90' },
      byPhase({ chronic: over('synovial-pmn', 80), acute: over('synovial-pmn', 90) }),
    ),
    line({ id: 'histology', block: 'Minor', label: 'More than five neutrophils a field in five fields' }, FIVE_IN_FIVE),
    line({ id: 'one-culture', block: 'Minor', label: 'A single positive culture' }, SINGLE_GROWTH, {
      yieldsTo: 'two-cultures',
    }),
  ],
  classes: [
    { id: 'infected', label: 'Infected', standing: 'confirmed', rank: 1 },
    { id: 'not-met', label: 'Criteria not met', standing: 'excluded', rank: 0 },
    { id: 'not-assessed', label: 'Not assessed', standing: 'not-assessed', rank: 0 },
  ],
  rules: [
    { gives: 'infected', when: [{ sum: { major: 1 }, atLeast: 1 }] },
    { gives: 'infected', when: [{ sum: { minor: 1 }, atLeast: 3 }] },
    { gives: 'not-assessed', when: [{ sum: { seen: 1 }, below: 1 }] },
    { gives: 'not-met', when: [] },
  ],
  score: { label: 'minor criteria', sum: { minor: 1 }, max: 5 },
  madeFor: 'has-acute-limits',
  remark: 'Purulence, a criterion in 2011, is none here.',
};
