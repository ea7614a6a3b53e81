import { compareFound } from '@gapline/core/learning/compare-found.ts';
import type { Found, KeptForecast } from '@gapline/core/learning/found.ts';
import { partsOfEvent } from '@gapline/core/learning/kept-events.ts';
import { usePlanning } from '../../case/desk.tsx';
import { number } from '../../parts/words.ts';
import { pct } from '../shares.ts';
import { fieldWords, valueWords } from './event-words.ts';

/** What was forecast for this knee against what came. */
export function ComparisonOfCase({ kept, found }: { readonly kept: KeptForecast; readonly found: Found }) {
  const catalogue = usePlanning((s) => s.catalogue);
  const { events, lengths, notNoted } = compareFound(kept, found);
  const came = events.filter((e) => e.happened);
  const fields = [...new Set(events.map((e) => partsOfEvent(e.event).field))];
  const surprises = fields.filter((field) => !came.some((e) => partsOfEvent(e.event).field === field));
  const open = new Set(notNoted.map((n) => partsOfEvent(n).field)).size;
  return (
    <div className="comparison">
      <h4>This knee: what came, and how likely it was said to be</h4>
      <ul className="came-list">
        {came.map((e) => (
          <li key={e.event}>
            <span className="came-field">{fieldWords(partsOfEvent(e.event).field)}</span>
            <span className="came-value">{valueWords(e.event, catalogue)}</span>
            <span className="came-share">
              <meter
                min={0}
                max={1}
                value={e.share}
                aria-label={`Forecast share of ${fieldWords(partsOfEvent(e.event).field)}`}
              />
              {pct(e.share)}
            </span>
          </li>
        ))}
        {surprises.map((field) => (
          <li key={field} className="is-surprise">
            <span className="came-field">{fieldWords(field)}</span>
            <span className="came-value">something that was not forecast</span>
            <span className="came-share">0 %</span>
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
