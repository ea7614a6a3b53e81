import { CAUSES, type CauseId } from '@gapline/core/failure/causes.ts';
import { EVIDENCE, type EvidenceId } from '@gapline/core/failure/evidence-table.ts';
import { LUCENT_COMPONENTS, type LucentComponent, ZONES } from '@gapline/core/failure/lucent-lines.ts';
import type { EvidenceRecord, PracticeStrengths } from '@gapline/core/failure/weigh-evidence.ts';
import { LOCAL_FACTORS, SYSTEMIC_DECISIVE, SYSTEMIC_FACTORS } from '@gapline/core/infection/stage/host-limb.ts';
import { CRIME80, KLIC } from '@gapline/core/infection/stage/retention-scores.ts';
import { STAGE_FACTS } from '@gapline/core/infection/stage/strategies.ts';
import type { Known } from '@gapline/core/measure/known.ts';
import type { WorkUp } from '@gapline/core/work-up/work-up.ts';
import Type, { type Static } from 'typebox';
import { historySchema } from './history-schema.ts';
import { infectionSchema } from './infection-schema.ts';
import { closed, isoDate, known, knownOf, maybe, type Plain, type Same, text, words } from './schema-words.ts';

/** The part of the case's schema that holds the work-up. Lists of ids come from the core's own tables. */

type Widths = (number | null)[];
type LucentLines = Partial<Record<LucentComponent, { widths: Widths; progressing?: Known }>>;

const zoneWidths = (zones: number) =>
  Type.Unsafe<Widths>({
    type: 'array',
    items: { type: ['number', 'null'], minimum: 0 },
    minItems: zones,
    maxItems: zones,
    description: 'Widest line of each zone, mm; 0 = none seen, null = not looked at.',
  });

const eachOf = <Id extends string, S>(ids: readonly Id[], schema: (id: Id) => S) =>
  Object.fromEntries(ids.map((id) => [id, schema(id)]));
const EVIDENCE_IDS: readonly EvidenceId[] = EVIDENCE.map((e) => e.id);
const CAUSE_IDS: readonly CauseId[] = CAUSES.map((c) => c.id);

const evidence = Type.Unsafe<Plain<EvidenceRecord>>(
  Type.Object(
    eachOf(EVIDENCE_IDS, () => maybe(words(['present', 'absent', 'unknown']))),
    { ...closed, description: 'Evidence entered by hand; absent = not looked for.' },
  ),
);

const strengths = Type.Unsafe<Plain<PracticeStrengths>>(
  Type.Object(
    eachOf(EVIDENCE_IDS, () =>
      maybe(
        Type.Object(
          eachOf(CAUSE_IDS, () => maybe(Type.Integer({ enum: [-2, -1, 1, 2, 3] }))),
          closed,
        ),
      ),
    ),
    { ...closed, description: "The practice's own strengths, by item and cause." },
  ),
);

const lucentLines = Type.Unsafe<LucentLines>(
  Type.Object(
    eachOf(LUCENT_COMPONENTS, (component) =>
      maybe(Type.Object({ widths: zoneWidths(ZONES[component]), progressing: maybe(known()) }, closed)),
    ),
    closed,
  ),
);

const score = (items: readonly { readonly id: string }[]) =>
  Type.Unsafe<Record<string, Known>>(
    Type.Object(
      eachOf(
        items.map((i) => i.id),
        () => maybe(known()),
      ),
      closed,
    ),
  );

export const workUpSchema = Type.Object(
  {
    history: maybe(historySchema),
    infection: maybe(infectionSchema),
    infectionDecision: maybe(
      Type.Object(
        {
          standing: words(['excluded', 'confirmed', 'likely', 'not-classifiable']),
          by: text(),
          on: isoDate('Day of the decision.'),
          reason: text(),
        },
        { ...closed, description: 'Infection as the surgeon settles it after reading the definitions.' },
      ),
    ),
    evidence: maybe(evidence),
    strengths: maybe(strengths),
    lucentLines: maybe(lucentLines),
    causes: maybe(
      Type.Array(Type.Object({ cause: words(CAUSE_IDS), reason: Type.String() }, closed), {
        description: 'Causes that the surgeon names, each with its reason.',
      }),
    ),
    overrideReason: maybe(text('Written reason for going on although the pain is unexplained.')),
    stage: maybe(
      Type.Object(
        {
          systemic: maybe(knownOf(SYSTEMIC_FACTORS)),
          decisive: maybe(knownOf(SYSTEMIC_DECISIVE)),
          local: maybe(knownOf(LOCAL_FACTORS)),
          facts: maybe(knownOf(STAGE_FACTS)),
          klic: maybe(score(KLIC.items)),
          crime80: maybe(score(CRIME80.items)),
        },
        closed,
      ),
    ),
    cement: maybe(
      Type.Object(
        {
          use: words(['fixation', 'spacer']),
          batches: Type.Number({ minimum: 0, description: 'Batches of 40 g powder.' }),
          drugs: Type.Array(
            Type.Object(
              {
                agent: Type.String(),
                gramsPerBatch: Type.Number({ minimum: 0 }),
                weighedAs: words(['base', 'sulfate']),
              },
              closed,
            ),
          ),
        },
        closed,
      ),
    ),
    sensitivities: maybe(
      Type.Array(
        Type.Object(
          {
            id: text(),
            organism: Type.String(),
            agent: Type.String(),
            result: words(['sensitive', 'intermediate', 'resistant']),
          },
          closed,
        ),
        { description: 'Antibiogram of the organisms found, as reported.' },
      ),
    ),
    timeline: maybe(
      Type.Array(
        Type.Object(
          {
            id: text(),
            from: Type.String({ description: 'Day as entered.' }),
            to: maybe(Type.String({ description: 'Day as entered; absent = one day, or still going on.' })),
            kind: words(['antibiotic', 'operation', 'holiday', 'note']),
            text: Type.String(),
          },
          closed,
        ),
      ),
    ),
    preTest: maybe(
      Type.Number({ exclusiveMinimum: 0, exclusiveMaximum: 1, description: 'Pre-test share for the estimate.' }),
    ),
  },
  { ...closed, description: 'Why the knee failed, whether it is infected, what is to be settled before a plan.' },
);

/** Does not compile when schema and core type drift apart. */
export const SAME_AS_WORK_UP: Same<Plain<Static<typeof workUpSchema>>, Plain<WorkUp>> = true;
