import type { Assessment, LineResult } from '@gapline/core/infection/assess.ts';
import type { DefinitionId, Standing } from '@gapline/core/infection/definition.ts';
import { DEFINITIONS, SHOWN_FIRST } from '@gapline/core/infection/definitions/definitions.ts';
import { useState } from 'react';
import { useReading } from './reading.tsx';
import { StatusShape } from './StatusShape.tsx';

export const STATUS_WORDS = { met: 'met', 'not-met': 'not met', 'not-known': 'not known' } as const;

/** The definitions as a small grid of classes: two first, the others one press away; each opens to its lines. */
export function Definitions() {
  const { assessments } = useReading().infection;
  const [opened, setOpened] = useState<DefinitionId | null>(null);
  const [all, setAll] = useState(false);
  const shown = assessments.filter((a) => all || SHOWN_FIRST.includes(a.definition));
  const open = assessments.find((a) => a.definition === opened);
  return (
    <section className="block" aria-labelledby="definitions-title">
      <h2 id="definitions-title">Infection by definition</h2>
      <p className="block-line">
        Definitions sort what is known; they do not decide. Local microbiology and the surgeon do.
      </p>
      <div className="definition-grid">
        {shown.map((a) => (
          <DefinitionCard
            key={a.definition}
            assessment={a}
            open={a.definition === opened}
            onOpen={() => setOpened(a.definition === opened ? null : a.definition)}
          />
        ))}
      </div>
      {open && <DefinitionLines assessment={open} />}
      <button type="button" className="as-link" aria-expanded={all} onClick={() => setAll(!all)}>
        {all ? 'Only the two shown first' : `The ${assessments.length - SHOWN_FIRST.length} other definitions`}
      </button>
    </section>
  );
}

function DefinitionCard({
  assessment: a,
  open,
  onOpen,
}: {
  readonly assessment: Assessment;
  readonly open: boolean;
  readonly onOpen: () => void;
}) {
  return (
    <button
      type="button"
      className={`definition-card is-${a.class.standing}`}
      aria-expanded={open}
      data-definition={a.definition}
      onClick={onOpen}
    >
      <span className="definition-name">{a.name}</span>
      <span className="definition-class">
        <ClassShape is={a.class.standing} />
        {a.class.label}
      </span>
      <small>
        {a.score && `${a.score.soFar} of ${a.score.max} ${a.score.label}; `}
        {a.byMajor ? 'by a major criterion; ' : ''}
        {a.settled ? 'nothing still missing can change it' : `could become: ${others(a)}`}
        {a.range === 'outside' && '; made for chronic infection, outside its range'}
      </small>
    </button>
  );
}

const others = (a: Assessment): string =>
  a.possible
    .filter((c) => c.id !== a.class.id)
    .map((c) => c.label.toLowerCase())
    .join(', ');

/** Shape beside colour: full disc, half disc, ring, bar. */
function ClassShape({ is }: { readonly is: Standing }) {
  return (
    <svg className={`class-shape is-${is}`} viewBox="0 0 16 16" aria-hidden="true">
      {is === 'confirmed' && <circle className="is-full" cx="8" cy="8" r="6.5" />}
      {is === 'open' && (
        <>
          <circle cx="8" cy="8" r="6" />
          <path className="is-full" d="M8 2a6 6 0 0 1 0 12Z" />
        </>
      )}
      {is === 'excluded' && <circle cx="8" cy="8" r="6" />}
      {(is === 'not-classifiable' || is === 'not-assessed') && <path d="M3 8h10" />}
    </svg>
  );
}

/** Every line of a definition with its points, its parts, its version and its source. */
function DefinitionLines({ assessment: a }: { readonly assessment: Assessment }) {
  const blocks = [...new Set(a.lines.map((l) => l.block))];
  return (
    <div className="definition-lines">
      <h3>
        {a.name}: {a.class.label}
      </h3>
      {a.score && (
        <p className="said-line">
          {a.score.label}: {a.score.soFar} so far, {a.score.atLeast} to {a.score.atMost} once everything is known, of{' '}
          {a.score.max}.
        </p>
      )}
      {blocks.map((block) => (
        <div key={block}>
          <h4>{block}</h4>
          <ul>
            {a.lines
              .filter((l) => l.block === block)
              .map((line) => (
                <Line key={line.id} definition={a.definition} line={line} />
              ))}
          </ul>
        </div>
      ))}
      {a.remark && <p className="said-line">{a.remark}</p>}
      <p className="said-line">
        Version {a.version}. Source: {a.source}. {a.trust}
      </p>
    </div>
  );
}

function Line({ definition, line }: { readonly definition: DefinitionId; readonly line: LineResult }) {
  const points = pointsOf(definition, line.id);
  return (
    <li className={`definition-line is-${line.status}`}>
      <StatusShape is={line.status} />
      <span>
        {line.label}
        {points !== null && (
          <small>
            {' '}
            {points} {Math.abs(points) === 1 ? 'point' : 'points'}
          </small>
        )}
        {line.countedElsewhere && <small> counted elsewhere</small>}
        {line.parts.length > 0 && (
          <small className="line-parts">
            {line.parts.map((p) => `${p.label}: ${STATUS_WORDS[p.status]}`).join('; ')}
          </small>
        )}
        {line.note && <small className="line-parts">{line.note}</small>}
      </span>
      <span className="definition-status">{STATUS_WORDS[line.status]}</span>
    </li>
  );
}

/** Points of a line once met; null where the definition counts none for it. */
function pointsOf(id: DefinitionId, lineId: string): number | null {
  const definition = DEFINITIONS.find((d) => d.id === id);
  const met = definition?.lines.find((l) => l.id === lineId)?.met;
  const weights = definition?.score?.sum;
  if (!met || !weights) return null;
  const points = Object.entries(met).reduce((sum, [tally, n]) => sum + n * (weights[tally] ?? 0), 0);
  return points === 0 ? null : points;
}
