import type { Construct } from '../gaps/construct.ts';
import { partsKey } from './kind.ts';
import { mostFrequent } from './most-frequent.ts';
import { percentilesOf } from './percentiles.ts';

const SEATS = ['femurProximalMm', 'femurAnteriorMm', 'trayMm'] as const;

/**
 * One construct that stands for several of a kind: of the parts that are named most often, seated nearest to the medians of
 * its three seats (sum of distances, mm; equal: the earlier one). Not for an empty list.
 */
export function typicalConstruct(constructs: readonly Construct[]): Construct {
  const most = mostFrequent(constructs.map(partsKey));
  const alike = constructs.filter((c) => partsKey(c) === most?.name);
  const medians = SEATS.map(
    (seat) =>
      percentilesOf(
        alike.map((c) => c[seat]),
        [50],
      )[0] ?? 0,
  );
  const off = (c: Construct): number => SEATS.reduce((sum, seat, i) => sum + Math.abs(c[seat] - (medians[i] ?? 0)), 0);
  const [first, ...rest] = alike;
  if (!first) throw new Error('No construct to choose from.');
  return rest.reduce((best, c) => (off(c) < off(best) - 1e-9 ? c : best), first);
}
