import type { Definition, DefinitionLine } from '../definition.ts';
import { type Formula, is } from '../formula.ts';
import { FIVE_IN_FIVE, SINUS, TWO_WITH_SAME_ORGANISM, VIRULENT_GROWTH } from './cultures.ts';

const line = (
  at: Pick<DefinitionLine, 'id' | 'label'> & { evidence: 'definitive' | 'suggestive' },
  when: Formula,
  note?: string,
): DefinitionLine => ({
  id: at.id,
  block: at.evidence === 'definitive' ? 'Definitive' : 'Suggestive',
  label: at.label,
  when,
  met: { [at.evidence]: 1 },
  known: { seen: 1 },
  ...(note === undefined ? {} : { note }),
});

export const IDSA_2013: Definition = {
  id: 'idsa-2013',
  name: 'IDSA 2013',
  version: '2013',
  source: 'Osmon, Clin Infect Dis 2013;56:e1',
  trust: 'Read in the guideline page and a reprint; how strongly histology counts is from memory.',
  tallies: { definitive: [0, 1], suggestive: [0, 1], seen: [0, 1] },
  lines: [
    line({ id: 'sinus', label: 'Sinus tract that reaches the prosthesis', evidence: 'definitive' }, SINUS),
    line(
      { id: 'purulence', label: 'Purulence around the prosthesis without another known cause', evidence: 'definitive' },
      is('purulence', 'yes'),
    ),
    line(
      {
        id: 'two-cultures',
        label: 'Two cultures of the operation, or aspirate and operation, with one organism',
        evidence: 'definitive',
      },
      TWO_WITH_SAME_ORGANISM,
    ),
    line(
      { id: 'histology', label: 'Acute inflammation on histology', evidence: 'suggestive' },
      FIVE_IN_FIVE,
      'The guideline leaves the number to the pathologist; five neutrophils in five fields are used here.',
    ),
    line(
      { id: 'virulent-culture', label: 'Virulent organism in a single culture', evidence: 'suggestive' },
      VIRULENT_GROWTH,
      'May represent infection; a single common contaminant does not by itself.',
    ),
  ],
  classes: [
    { id: 'infected', label: 'Definitive evidence', standing: 'confirmed', rank: 2 },
    { id: 'suggestive', label: 'Suggestive evidence', standing: 'open', rank: 1 },
    { id: 'nothing-listed', label: 'Nothing on the list; infection still possible', standing: 'open', rank: 0 },
    { id: 'not-assessed', label: 'Not assessed', standing: 'not-assessed', rank: 0 },
  ],
  rules: [
    { gives: 'infected', when: [{ sum: { definitive: 1 }, atLeast: 1 }] },
    { gives: 'suggestive', when: [{ sum: { suggestive: 1 }, atLeast: 1 }] },
    { gives: 'not-assessed', when: [{ sum: { seen: 1 }, below: 1 }] },
    { gives: 'nothing-listed', when: [] },
  ],
  score: null,
  madeFor: 'any',
  remark: 'A list of facts, no score: with none of them the clinician may still judge the joint infected.',
};
