import type { RemovalEstimate } from '../bone/bone-map.ts';
import { betaAfter, betaMean, betaOf, betaSd } from './beta-update.ts';
import { type ComparedLength, compareFound } from './compare-found.ts';
import type { Found, KeptForecast } from './found.ts';
import { foundValue } from './happened.ts';
import { partsOfEvent, type StateField } from './kept-events.ts';
import { meanSd, normalAfter } from './normal-update.ts';

/** One case of the practice: what was forecast and what was found. */
export interface LearningCase {
  readonly kept: KeptForecast;
  readonly found: Found;
}

/** Cases from which an update is offered; fewer say nothing (LRN-5; choice of this project, grade D). */
export const LEAST_CASES = 5;

/** What a stated chance and a stated loss weigh against what was found, in cases (LRN-5; grade D, shown and changeable). */
export const PRIOR_CASES = { chance: 10, loss: 5 } as const;

export type ChanceField =
  | 'femurWorseChance'
  | 'tibiaWorseChance'
  | 'mclWorseChance'
  | 'lclWorseChance'
  | 'fractureChance'
  | 'infectionChance';

/** A chance that the practice's own cases would move. Offered, never taken over without being accepted. */
export interface ChanceOffer {
  readonly kind: 'chance';
  /** Field of the forecast's settings, e.g. `fractureChance`. */
  readonly field: ChanceField;
  readonly label: string;
  readonly n: number;
  readonly came: number;
  /** Mean of what was forecast, 0 to 1. */
  readonly stated: number;
  readonly offered: number;
  /** How well the offered chance itself is known, one standard deviation. */
  readonly sd: number;
  readonly priorCases: number;
}

/** How much deeper the bone was found than forecast, and how much wider it scattered. */
export interface LossOffer {
  readonly kind: 'loss';
  readonly surface: RemovalEstimate['surface'];
  readonly label: string;
  /** Cases, both sides of each together. */
  readonly n: number;
  /** Mean of found less forecast median, mm, + = deeper than forecast. */
  readonly meanMm: number;
  /** What is offered to be added to the loss at removal, mm: the mean drawn towards 0 by the prior. */
  readonly offeredMm: number;
  readonly sdMm: number;
  /** Spread found over spread forecast: above 1 = the forecast is too sure. */
  readonly spreadFactor: number;
  readonly priorCases: number;
}

export type UpdateOffer = ChanceOffer | LossOffer;

const CHANCES: readonly {
  readonly field: ChanceField;
  readonly of: StateField | 'fracture' | 'infection';
  readonly label: string;
}[] = [
  { field: 'femurWorseChance', of: 'femurClass', label: 'Femur one class worse than the films show' },
  { field: 'tibiaWorseChance', of: 'tibiaClass', label: 'Tibia one class worse than the films show' },
  { field: 'mclWorseChance', of: 'mcl', label: 'Medial collateral ligament weaker than examined' },
  { field: 'lclWorseChance', of: 'lcl', label: 'Lateral collateral ligament weaker than examined' },
  { field: 'fractureChance', of: 'fracture', label: 'Fracture at removal' },
  { field: 'infectionChance', of: 'infection', label: 'Infection that nobody expected' },
];

const WORSE: Readonly<Record<StateField, readonly string[]>> = {
  femurClass: ['1', '2A', '2B', '3'],
  tibiaClass: ['1', '2A', '2B', '3'],
  mcl: ['intact', 'attenuated', 'absent'],
  lcl: ['intact', 'attenuated', 'absent'],
};

/** Share forecast for the chance in one case and whether it came; null = not comparable. */
function chanceInCase(
  of: StateField | 'fracture' | 'infection',
  { kept, found }: LearningCase,
): { readonly share: number; readonly came: boolean } | null {
  const was = foundValue(found, of);
  const forecast = kept.shares.filter((s) => partsOfEvent(s.event).field === of);
  if (was === undefined || forecast.length === 0) return null;
  if (of === 'fracture' || of === 'infection') return { share: forecast[0]?.share ?? 0, came: was === 'yes' };
  const ladder = WORSE[of];
  const ranks = forecast.map((s) => ladder.indexOf(partsOfEvent(s.event).value));
  // Draws only make things worse: the best of the kept states is the one that was entered before surgery.
  const entered = Math.min(...ranks);
  if (entered < 0) return null;
  const share = forecast.reduce((sum, s, i) => sum + ((ranks[i] ?? 0) > entered ? s.share : 0), 0);
  return { share, came: ladder.indexOf(was) > entered };
}

function chanceOffers(series: readonly LearningCase[], priorCases: number): readonly ChanceOffer[] {
  return CHANCES.flatMap(({ field, of, label }) => {
    const seen = series.map((one) => chanceInCase(of, one)).filter((s) => s !== null);
    const n = seen.length;
    if (n < LEAST_CASES) return [];
    const came = seen.filter((s) => s.came).length;
    const stated = seen.reduce((sum, s) => sum + s.share, 0) / n;
    const after = betaAfter(betaOf(stated, priorCases), came, n);
    return [{ kind: 'chance', field, label, n, came, stated, offered: betaMean(after), sd: betaSd(after), priorCases }];
  });
}

const SURFACES: readonly {
  readonly surface: RemovalEstimate['surface'];
  readonly field: 'femurDistalMm' | 'femurPosteriorMm' | 'tibiaMm';
  readonly label: string;
}[] = [
  { surface: 'femur-distal', field: 'femurDistalMm', label: 'Distal femur' },
  { surface: 'femur-posterior', field: 'femurPosteriorMm', label: 'Posterior femur' },
  { surface: 'tibia', field: 'tibiaMm', label: 'Tibia' },
];

/** Standard deviations between the 5th and the 95th percentile of a normal distribution. */
const BAND_SDS = 2 * 1.6448536269514722;

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

/** One case: how much deeper than the forecast median, mean of the sides noted, and how wide the forecast was, mm. */
function deeperInCase(lengths: readonly ComparedLength[], field: string) {
  const sides = lengths.filter((l) => l.field.startsWith(`${field}.`));
  if (sides.length === 0) return null;
  const [low, middle, high] = [0, 2, 4] as const;
  const at = (l: ComparedLength, i: number): number => l.percentiles[i] ?? l.foundMm;
  return {
    byMm: mean(sides.map((l) => l.foundMm - at(l, middle))),
    sdMm: mean(sides.map((l) => (at(l, high) - at(l, low)) / BAND_SDS)),
  };
}

function lossOffers(series: readonly LearningCase[], priorCases: number): readonly LossOffer[] {
  const compared = series.map(({ kept, found }) => compareFound(kept, found).lengths);
  return SURFACES.flatMap(({ surface, field, label }) => {
    const seen = compared.map((lengths) => deeperInCase(lengths, field)).filter((s) => s !== null);
    const forecastSd = seen.length === 0 ? 0 : mean(seen.map((s) => s.sdMm));
    if (seen.length < LEAST_CASES || forecastSd <= 0) return [];
    const prior = { mean: 0, meanWeight: priorCases, sd: forecastSd, sdWeight: priorCases };
    const sample = seen.map((s) => s.byMm);
    const after = normalAfter(prior, sample);
    return [
      {
        kind: 'loss',
        surface,
        label,
        n: seen.length,
        meanMm: mean(sample),
        offeredMm: after.mean,
        sdMm: meanSd(after),
        spreadFactor: after.sd / forecastSd,
        priorCases,
      },
    ];
  });
}

/**
 * What the practice's own cases would change in the distributions (LRN-5, LRN-6): chances by beta updating, loss at removal by
 * normal updating of found less forecast depth. From five noted cases on; each offer shows what it started from and what
 * that weighs. Nothing is changed here: a person accepts an offer or leaves it.
 *
 * A depth found deeper than forecast may come from removal or from the films: the offer does not tell them apart.
 */
export function offeredUpdates(
  series: readonly LearningCase[],
  priorCases: { readonly chance: number; readonly loss: number } = PRIOR_CASES,
): readonly UpdateOffer[] {
  return [...chanceOffers(series, priorCases.chance), ...lossOffers(series, priorCases.loss)];
}

/** An estimate of loss at removal with an accepted offer in it: all three corners shifted, none below 0, mm (LRN-6). */
export function withOffer(estimate: RemovalEstimate, { offeredMm }: LossOffer): RemovalEstimate {
  const shifted = (mm: number): number => Math.max(0, mm + offeredMm);
  return {
    ...estimate,
    leastMm: shifted(estimate.leastMm),
    likelyMm: shifted(estimate.likelyMm),
    mostMm: shifted(estimate.mostMm),
  };
}
