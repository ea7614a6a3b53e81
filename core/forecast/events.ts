import type { DrawnKnee } from './drawn-knee.ts';
import type { ForecastEvent } from './forecast-types.ts';

type Value = 'femurClass' | 'tibiaClass' | 'mcl' | 'lcl';

const VALUES: readonly (readonly [Value, string])[] = [
  ['femurClass', 'Femur class'],
  ['tibiaClass', 'Tibia class'],
  ['mcl', 'Medial collateral ligament'],
  ['lcl', 'Lateral collateral ligament'],
];

/**
 * How often bone and ligaments turn out as they may, and how often what nobody wants happens (FOR-9). Shares of all
 * draws; the values of one field add up to 1. Events are named `field=value`, e.g. `tibiaClass=2B`, `fracture=yes`.
 */
export function forecastEvents(knees: readonly DrawnKnee[]): readonly ForecastEvent[] {
  if (knees.length === 0) return [];
  const share = (holds: (knee: DrawnKnee) => boolean): number => knees.filter(holds).length / knees.length;
  const values = VALUES.flatMap(([field, label]) => {
    const seen = [...new Set(knees.map((k) => k.state[field]))].sort();
    return seen.map((value) => ({
      event: `${field}=${value}`,
      label: `${label}: ${value}`,
      share: share((k) => k.state[field] === value),
    }));
  });
  return [
    ...values,
    { event: 'fracture=yes', label: 'Fracture at removal', share: share((k) => k.fracture) },
    { event: 'infection=yes', label: 'Infection that nobody expected', share: share((k) => k.infection) },
  ];
}
