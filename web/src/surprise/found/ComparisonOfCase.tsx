import { compareFound } from '@gapline/core/learning/compare-found.ts';
import type { Found, KeptForecast } from '@gapline/core/learning/found.ts';
import { partsOfEvent } from '@gapline/core/learning/kept-events.ts';
import { pct } from '@gapline/core/plan/told/shares.ts';
import { usePlanning } from '../../case/desk.tsx';
import { number } from '../../parts/words.ts';
import { cameWords, fieldWords, whatCame } from './event-words.ts';

/** What was forecast for this knee against what came. */
export function ComparisonOfCase({ kept, found }: { readonly kept: KeptForecast; readonly found: Found }) {
  const catalogue = usePlanning((s) => s.catalogue);
  const { events, lengths, notNoted } = compareFound(kept, found);
  const lines = whatCame(events);
  const open = new Set(notNoted.map((n) => partsOfEvent(n).field)).size;
  return (
    <div className="comparison">
      <h3>This knee: what came, and how likely it was said to be</h3>
      <ul className="came-list">
        {lines.map((line) => (
          <li key={line.field} className={line.share === 0 ? 'is-surprise' : undefined}>
            <span className="came-field">{fieldWords(line.field)}</span>
            <span className="came-value">{cameWords(line, catalogue)}</span>
            <span className="came-share">
              <span className="share-line" aria-hidden="true">
                <span style={{ width: `${100 * line.share}%` }} />
              </span>
              {pct(line.share)}
            </span>
          </li>
        ))}
      </ul>
      {lengths.length > 0 && (
        <ul className="came-list">
          {lengths.map((l) => (
            <li key={l.field}>
              <span className="came-field">{fieldWords(l.field)}</span>
              <span className="came-value">
                {number(l.foundMm)} mm; forecast {number(l.percentiles[0] ?? 0)} to {number(l.percentiles[4] ?? 0)} mm
              </span>
              <span className="came-share">{CELL_WORDS[l.cell] ?? ''}</span>
            </li>
          ))}
        </ul>
      )}
      {open > 0 && <p className="said-line">{open} more were forecast and nothing of them is noted.</p>}
    </div>
  );
}

const CELL_WORDS = ['below the band', 'lower part', 'middle', 'middle', 'upper part', 'above the band'] as const;
