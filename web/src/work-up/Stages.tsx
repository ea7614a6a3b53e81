import {
  hostGrade,
  LOCAL_FACTORS,
  limbGrade,
  SYSTEMIC_DECISIVE,
  SYSTEMIC_FACTORS,
} from '@gapline/core/infection/stage/host-limb.ts';
import {
  CRIME80,
  KLIC,
  type RetentionScore,
  readRetentionScore,
} from '@gapline/core/infection/stage/retention-scores.ts';
import { readStrategies, STAGE_FACTS, STRATEGIES } from '@gapline/core/infection/stage/strategies.ts';
import type { Known } from '@gapline/core/measure/known.ts';
import type { WorkUp } from '@gapline/core/work-up/work-up.ts';
import { STATUS_WORDS } from './Definitions.tsx';
import { Fold } from './inputs.tsx';
import { StatusShape } from './StatusShape.tsx';
import { useSlot } from './slot.ts';
import { TriList } from './Tri.tsx';

const AT = '/workUp/stage';

/** Ways to treat an infected knee, each with its criteria and published results; no ranking. */
export function Stages() {
  const stage = useSlot<NonNullable<WorkUp['stage']>>('/workUp/stage').value ?? {};
  const readings = readStrategies(stage.facts ?? {});
  const host = hostGrade(stage.systemic ?? {}, stage.decisive ?? {});
  const limb = limbGrade(stage.local ?? {});
  return (
    <section className="block" aria-labelledby="stages-title">
      <h2 id="stages-title">If infected: one stage, two, or neither</h2>
      <p className="block-line">Criteria and published results side by side. The team with microbiology decides.</p>
      {readings.map((r) => {
        const strategy = STRATEGIES.find((s) => s.id === r.id);
        return (
          <details key={r.id} className="strategy">
            <summary>
              <StatusShape is={r.overall} />
              <span className="strategy-name">{r.label}</span>
              <span className="fold-said">
                {r.criteria.filter((c) => c.standing === 'met').length} of {r.criteria.length} criteria met,{' '}
                {r.criteria.filter((c) => c.standing === 'not-met').length} not met
              </span>
            </summary>
            <ul>
              {r.criteria.map((c) => (
                <li key={c.text} className="definition-line">
                  <StatusShape is={c.standing} />
                  <span>{c.text}</span>
                  <span className="definition-status">{STATUS_WORDS[c.standing]}</span>
                </li>
              ))}
            </ul>
            {strategy?.results.map((result) => (
              <p key={result.text} className="said-line">
                {result.text}
                {result.n && ` (n: ${result.n})`}. <small>{result.source}</small>
              </p>
            ))}
            <p className="said-line">
              <small>Criteria: {strategy?.source}</small>
            </p>
          </details>
        );
      })}
      <Fold title="Facts on which the choice turns">
        <TriList name="facts of the choice" at={`${AT}/facts`} items={STAGE_FACTS} />
      </Fold>
      <Fold title="Host and limb" said={`host ${span(host)}, limb ${span(limb)}`}>
        <h4>Any one makes the host C</h4>
        <TriList name="decisive factors" at={`${AT}/decisive`} items={SYSTEMIC_DECISIVE} />
        <h4>Host: none A, one or two B, more C</h4>
        <TriList name="factors of the host" at={`${AT}/systemic`} items={SYSTEMIC_FACTORS} />
        <h4>Limb: none 1, one or two 2, more 3</h4>
        <TriList name="factors of the limb" at={`${AT}/local`} items={LOCAL_FACTORS} />
      </Fold>
      <Score score={KLIC} at={`${AT}/klic`} items={stage.klic ?? {}} />
      <Score score={CRIME80} at={`${AT}/crime80`} items={stage.crime80 ?? {}} />
    </section>
  );
}

const span = (g: { readonly atLeast: string | number; readonly atMost: string | number }): string =>
  g.atLeast === g.atMost ? String(g.atLeast) : `${g.atLeast} to ${g.atMost}`;

function Score({
  score,
  at,
  items,
}: {
  readonly score: RetentionScore;
  readonly at: string;
  readonly items: Readonly<Record<string, Known>>;
}) {
  const read = readRetentionScore(score, items);
  const [low, high] = read.range;
  const [from, to] = read.failurePercent;
  return (
    <Fold
      title={`${score.label}, if the implant is kept`}
      said={low === high ? `${low} points` : `${low} to ${high} points`}
    >
      <TriList name={score.label} at={at} items={score.items} />
      <p className="said-line">
        {score.derivedIn} Failure there: {from === to ? `${from} %` : `${from} to ${to} %`}. {score.cautions.join(' ')}{' '}
        <small>{score.source}</small>
      </p>
    </Fold>
  );
}
