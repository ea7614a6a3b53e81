import type { ForecastLength } from '@gapline/core/forecast/forecast-types.ts';
import { number } from '../../parts/words.ts';

const WIDTH = 240;
const HEIGHT = 22;

/** Lengths and angles with their bands: 5 to 95 % thin, 25 to 75 % thick, the middle as a tick; one scale for each unit. */
export function LengthBands({ lengths }: { readonly lengths: readonly ForecastLength[] }) {
  return (['mm', 'deg'] as const).map((unit) => {
    const own = lengths.filter((l) => l.unit === unit && l.percentiles.length === 5);
    return own.length === 0 ? null : <Bands key={unit} lengths={own} unit={unit} />;
  });
}

function Bands({ lengths, unit }: { readonly lengths: readonly ForecastLength[]; readonly unit: 'mm' | 'deg' }) {
  const all = lengths.flatMap((l) => l.percentiles);
  const low = Math.min(0, ...all);
  const high = Math.max(low + 1, ...all);
  const x = (value: number): number => 3 + ((value - low) / (high - low)) * (WIDTH - 6);
  return (
    <table className="bands">
      <thead>
        <tr>
          <th scope="col">{unit === 'mm' ? 'Length, mm' : 'Angle, degrees'}</th>
          <th scope="col">
            <span className="unseen">Picture of the band</span>
          </th>
          <th scope="col">Middle</th>
          <th scope="col">5 to 95 %</th>
        </tr>
      </thead>
      <tbody>
        {lengths.map((l) => (
          <tr key={l.field}>
            <th scope="row">{l.label}</th>
            <td>
              <Band at={l.percentiles.map(x)} zero={x(0)} />
            </td>
            <td className="share-number">{number(l.percentiles[2] ?? 0, unit)}</td>
            <td className="share-number">
              {number(l.percentiles[0] ?? 0, unit)} to {number(l.percentiles[4] ?? 0, unit)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Band({ at, zero }: { readonly at: readonly number[]; readonly zero: number }) {
  const [p5 = 0, p25 = 0, p50 = 0, p75 = 0, p95 = 0] = at;
  const y = HEIGHT / 2;
  return (
    <svg className="band" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      <path className="band-zero" d={`M${zero} 1V${HEIGHT - 1}`} />
      <path className="band-outer" d={`M${p5} ${y}H${Math.max(p95, p5 + 0.5)}`} />
      <path className="band-inner" d={`M${p25} ${y}H${Math.max(p75, p25 + 0.5)}`} />
      <path className="band-middle" d={`M${p50} ${y - 8}v16`} />
    </svg>
  );
}
