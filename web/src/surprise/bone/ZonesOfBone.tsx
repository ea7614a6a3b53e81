import type { ZoneLeft } from '@gapline/core/bone/zones-left.ts';
import type { StockOfBone } from '@gapline/core/plan/bone-stock.ts';
import { usePlanning } from '../../case/desk.tsx';
import { zonesUsed } from './bone-reading.ts';

const LEFT_WORDS: Readonly<Record<ZoneLeft['left'], string>> = {
  holds: 'holds',
  'with-a-part': 'with a part',
  lost: 'lost',
  'not-known': 'not known',
};

/** The three zones of fixation: what is left of each, and which the plan uses. */
export function ZonesOfBone({ stock }: { readonly stock: StockOfBone }) {
  const plan = usePlanning((s) => s.plan);
  const planned = zonesUsed(plan, stock);
  return (
    <div className="zones">
      <p className="zones-line">
        <strong>Zones of fixation</strong>{' '}
        {planned === null
          ? 'used by the plan: not known yet'
          : `used by the plan: ${planned.used} of 3, ${planned.wanted} wanted${planned.zones.some((z) => z.plan === 'not-known') ? '; one not judged' : ''}`}
      </p>
      <ul className="zone-list">
        {stock.zones.map((zone) => {
          const isUsed = planned?.zones.some((z) => z.zone === zone.zone && z.plan === 'solid') ?? false;
          return (
            <li key={zone.zone} className={`zone is-${zone.left}${isUsed ? ' is-used' : ''}`}>
              <ZoneShape zone={zone} used={isUsed} />
              <span className="zone-name">{zone.name}</span>
              <span className="zone-left">
                {LEFT_WORDS[zone.left]}
                {isUsed && ', used'}
              </span>
              <small>{zone.why}</small>
            </li>
          );
        })}
      </ul>
    </div>
  );
}

/** Full where it holds, half where a part makes it hold, crossed where it is lost, dashed where nobody knows. */
function ZoneShape({ zone, used }: { readonly zone: ZoneLeft; readonly used: boolean }) {
  return (
    <svg className="zone-shape" viewBox="0 0 20 20" aria-hidden="true">
      <rect className={used ? 'is-full' : undefined} x="2" y="2" width="16" height="16" rx="3" />
      {!used && zone.left === 'with-a-part' && (
        <path className="is-full" d="M2 10H18V15a3 3 0 0 1-3 3H5a3 3 0 0 1-3-3Z" />
      )}
      {!used && zone.left === 'holds' && <circle className="is-full" cx="10" cy="10" r="4" />}
      {zone.left === 'lost' && !used && <path d="M5 5 15 15M15 5 5 15" />}
    </svg>
  );
}
