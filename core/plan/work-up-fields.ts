import { CAUSES } from '../failure/causes.ts';
import { EVIDENCE, type EvidenceItem } from '../failure/evidence-table.ts';
import { LUCENT_COMPONENTS, ZONES } from '../failure/lucent-lines.ts';
import { LOCAL_FACTORS, SYSTEMIC_DECISIVE, SYSTEMIC_FACTORS } from '../infection/stage/host-limb.ts';
import { CRIME80, KLIC } from '../infection/stage/retention-scores.ts';
import { STAGE_FACTS } from '../infection/stage/strategies.ts';
import { isEither, isListOf, isListWithIds, isNumber, isRecordOf, isText, isWord } from './accepts.ts';
import { date, type EditableField, needed, number, oneOf, section, text, value } from './field-kinds.ts';
import { HISTORY_FIELDS } from './history-fields.ts';
import { INFECTION_FIELDS } from './infection-fields.ts';
import { KNOWN, knownOf } from './known-fields.ts';

/** What may be set in the work-up, by the names of core/work-up/work-up.ts. Lists are set whole. */
export const WORK_UP_FIELDS = section('Work-up', {
  history: HISTORY_FIELDS,
  infection: INFECTION_FIELDS,
  infectionDecision: section(
    'Decision on infection',
    {
      standing: needed(oneOf('Infection', ['excluded', 'confirmed', 'likely', 'not-classifiable'])),
      by: needed(text('Who decided')),
      on: needed(date('Day of the decision')),
      reason: needed(text('Reason of the decision', 2000)),
    },
    true,
  ),
  evidence: section(
    'Evidence',
    eachOf(EVIDENCE, (e) => oneOf(e.finding, ['present', 'absent', 'unknown'])),
  ),
  strengths: section(
    'Strengths of the practice',
    eachOf(EVIDENCE, (e) => section(`Strengths: ${e.finding}`, strengthsOf(e))),
  ),
  lucentLines: section('Lucent lines', Object.fromEntries(LUCENT_COMPONENTS.map((c) => [c, lucentLines(c)]))),
  causes: value(
    'Causes',
    'a list of causes, each with its reason',
    isListOf(isRecordOf({ cause: isWord(CAUSES.map((c) => c.id)), reason: isText(2000) }), CAUSES.length),
  ),
  overrideReason: text('Reason for going on', 2000),
  stage: section('Stages', {
    systemic: knownOf('Host', SYSTEMIC_FACTORS),
    decisive: knownOf('Host, decisive', SYSTEMIC_DECISIVE),
    local: knownOf('Limb', LOCAL_FACTORS),
    facts: knownOf('Facts for the choice of stages', STAGE_FACTS),
    klic: knownOf('KLIC', KLIC.items),
    crime80: knownOf('CRIME80', CRIME80.items),
  }),
  cement: section(
    'Cement',
    {
      use: needed(oneOf('Use of the cement', ['fixation', 'spacer'])),
      batches: needed(number('Batches of 40 g', 0, 20, '')),
      drugs: needed(
        value(
          'Drugs in the cement',
          'a list of drugs with grams in a batch',
          isListOf(
            isRecordOf({ agent: isText(80), gramsPerBatch: isNumber(0, 100), weighedAs: isWord(['base', 'sulfate']) }),
          ),
        ),
      ),
    },
    true,
  ),
  sensitivities: value(
    'Sensitivities',
    'a list of organism, drug and result',
    isListWithIds(
      { organism: isText(200), agent: isText(80), result: isWord(['sensitive', 'intermediate', 'resistant']) },
      {},
    ),
  ),
  timeline: value(
    'Timeline',
    'a list of spans with day, kind and text',
    isListWithIds(
      { from: isText(40), kind: isWord(['antibiotic', 'operation', 'holiday', 'note']), text: isText(500) },
      { to: isText(40) },
    ),
  ),
  preTest: number('Pre-test probability', 0.001, 0.999, ''),
});

function eachOf<T extends { readonly id: string }>(list: readonly T[], field: (item: T) => EditableField) {
  return Object.fromEntries(list.map((item) => [item.id, field(item)]));
}

function strengthsOf(item: EvidenceItem) {
  const strengths = [-2, -1, 1, 2, 3];
  return eachOf(CAUSES, (cause) =>
    value(`${item.finding}, ${cause.label}`, `one of ${strengths.join(', ')}`, isWord(strengths)),
  );
}

function lucentLines(component: (typeof LUCENT_COMPONENTS)[number]): EditableField {
  const zones = ZONES[component];
  const width = isEither(isNumber(0, 50), (v) => v === null);
  return value(
    `Lucent lines, ${component}`,
    `widths of ${zones} zones in mm, null where not looked at`,
    isRecordOf(
      { widths: (v) => isListOf(width, zones)(v) && (v as unknown[]).length === zones },
      { progressing: isWord(KNOWN) },
    ),
  );
}
