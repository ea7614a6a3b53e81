import { type LeadLine, threeLines } from '@gapline/core/plan/told/three-lines.ts';
import { useMemo } from 'react';
import { usePlanning } from '../../case/desk.tsx';
import { useForecasting, useSurprise } from '../forecast/forecasting-context.tsx';
import { openSection } from '../SurpriseSection.tsx';

/** The three lines beside the picture, and how fresh they are. */
export function ThreeLines() {
  const plan = usePlanning((s) => s.plan);
  const catalogue = usePlanning((s) => s.catalogue);
  const answer = useForecasting((s) => s.answer);
  const of = useForecasting((s) => s.of);
  const is = useForecasting((s) => s.is);
  const forecastIsNew = useForecasting((s) => s.forecastIsNew);
  const lines = useMemo(
    () => threeLines({ plan, catalogue, answer: answer && { of: answer, catalogue: of?.catalogue ?? null } }),
    [plan, catalogue, answer, of],
  );
  return (
    <div className="lead">
      {lines.map((line) => (
        <Line
          key={line.id}
          line={line}
          isOld={answer !== null && is !== 'settled' && !(forecastIsNew && line.id !== 'room')}
        />
      ))}
      <Freshness />
    </div>
  );
}

function Line({ line, isOld }: { readonly line: LeadLine; readonly isOld: boolean }) {
  return (
    <button
      type="button"
      className={`lead-line is-${line.id}${line.open ? ' is-open' : ''}${isOld ? ' is-old' : ''}`}
      onClick={() => openSection(line.opens)}
    >
      <span className="lead-label">{line.label}</span>
      <span className="lead-head">
        {line.figure && <span className="lead-figure">{line.figure}</span>} {line.head}
      </span>
      {line.more.length > 0 && <span className="lead-more">{line.more.join(' · ')}</span>}
    </button>
  );
}

const PART_WORDS = { forecast: 'Knees are drawn', sets: 'Sets are weighed', choice: 'Sets are chosen' } as const;

/** Whether the lines are of this state of the case, with a way to stop and to begin anew. */
function Freshness() {
  const { forecasting } = useSurprise();
  const { is, progress, answer, fault, tookMs } = useForecasting((s) => s);
  const busy = is === 'running' || is === 'waiting';
  const words = {
    'nothing-yet': 'Sets and stock are being read …',
    waiting: 'Being renewed …',
    running: answer ? 'Being renewed …' : 'Being reckoned …',
    settled: tookMs === null ? '' : `Reckoned in ${(tookMs / 1000).toFixed(1)} s`,
    stopped: answer ? 'Stopped: the lines are of the state before' : 'Stopped before an answer',
    failed: fault ?? 'The forecast could not be made',
  }[is];
  return (
    <div className={`freshness is-${is}`}>
      <span className="freshness-word" role="status">
        {words}
      </span>
      {busy && (
        <>
          <progress
            max={1}
            {...(progress ? { value: progress.done } : {})}
            aria-label={progress ? PART_WORDS[progress.part] : 'Begins'}
          />
          <span className="freshness-part" aria-hidden="true">
            {progress ? `${PART_WORDS[progress.part]}: ${progress.words}` : ''}
          </span>
          <button type="button" onClick={() => forecasting.stop()}>
            Stop
          </button>
        </>
      )}
      {(is === 'stopped' || is === 'failed') && (
        <button type="button" onClick={() => forecasting.again()}>
          Reckon again
        </button>
      )}
    </div>
  );
}
