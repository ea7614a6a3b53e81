import { type MigrationReading, readMigration } from '../failure/migration.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { View } from '../landmarks/view.ts';
import { measureCanals } from '../limb/measure-canals.ts';
import { measureKnee } from '../limb/measure-knee.ts';
import type { Measurement } from '../limb/measurement.ts';
import { chiSquareP } from '../measure/chi-square.ts';
import type { Warning } from '../measure/outcome.ts';
import { Z95 } from '../measure/quantity.ts';
import { type Change, changeOf } from './change-of.ts';
import type { DatedEvidence } from './dated-evidence.ts';
import { METAL_WIDTHS, MOVEMENT_LIMITS } from './movement-limits.ts';

/** One measurement on two dates. */
export interface ComparedLine {
  readonly id: string;
  readonly label: string;
  readonly unit: Measurement['unit'];
  readonly sign: string;
  readonly rule: string;
  readonly before: { readonly value: number; readonly sd: number; readonly film: string };
  readonly now: { readonly value: number; readonly sd: number; readonly film: string };
  readonly change: Change;
  /** Larger than its own 95 % uncertainty. */
  readonly larger: boolean;
  /** Larger still when all lines are judged together (Holm, 5 %): one line in twenty is larger by chance alone. */
  readonly holds: boolean;
  /** For components: moved or not against the published limit. */
  readonly movement?: { readonly limit: number; readonly reading: MigrationReading };
  readonly flags: readonly Warning[];
}

export interface Comparison {
  readonly from: string;
  readonly to: string;
  readonly lines: readonly ComparedLine[];
  /** What is measured on one of the dates but cannot be compared, and why. */
  readonly notCompared: readonly { readonly id: string; readonly label: string; readonly why: string }[];
  /** What speaks against comparing at all: metal that seems to have grown. */
  readonly conflicts: readonly Warning[];
}

type Pair = readonly [before: Measurement, now: Measurement];

/**
 * Two dates of one knee side by side (CMP-1): every quantity measured by the same landmarks on films of the same view on both, its change
 * with sign (now less before) and spread, and whether the change is larger than its 95 % uncertainty. Order: that of the measurements. What
 * was measured on one date only is named with what is missing. Nothing is compared across knees: both sides must agree, else all is refused.
 */
export function compareDates(before: DatedEvidence, now: DatedEvidence): Comparison {
  const from = before.date;
  const to = now.date;
  if (before.evidence.side !== now.evidence.side)
    return { from, to, lines: [], notCompared: [], conflicts: [OTHER_SIDE] };
  const { pairs, alone } = pairUp(before, now);
  const lines = judgedTogether(
    pairs.flatMap((pair) => {
      const one = lineOf(pair, [before, now]);
      return one ? [one] : [];
    }),
  );
  const metal = lines.filter((l) => METAL_WIDTHS.includes(l.id));
  return {
    from,
    to,
    lines: lines.filter((l) => !METAL_WIDTHS.includes(l.id)),
    notCompared: alone,
    conflicts: metal.flatMap((l) => (l.larger ? [metalGrown(l)] : [])),
  };
}

const OTHER_SIDE: Warning = {
  code: 'other-side',
  message: 'The two dates are of different knees: nothing is compared.',
  field: 'films',
  mend: 'Choose films of the same knee.',
};

const metalGrown = (l: ComparedLine): Warning => ({
  code: 'metal-changed',
  message: `${l.label} measures ${l.before.value.toFixed(1)} mm on film ${l.before.film} and ${l.now.value.toFixed(1)} mm on film ${l.now.film}: metal does not grow. One of the two scales is wrong, or the component was exchanged.`,
  field: `films[${l.now.film}].scale`,
  mend: 'Take the scale of both films from the same implant.',
});

const VIEWS: readonly View[] = ['long-leg', 'ap', 'lateral', 'skyline', 'stress-varus', 'stress-valgus'];

/** Pairs each quantity on films of one view and by the same landmarks; across views only where there is no other way. */
function pairUp(before: DatedEvidence, now: DatedEvidence) {
  const all = [measured(before), measured(now)] as const;
  const byView = VIEWS.map((view) => [only(before, now, view), only(now, before, view)] as const)
    .filter(([a, b]) => a.evidence.films.length > 0 && b.evidence.films.length > 0)
    .map(([a, b]) => [measured(a), measured(b)] as const);
  const pairs: Pair[] = [];
  const alone: { id: string; label: string; why: string }[] = [];
  const ids = new Map([...all[0], ...all[1]].map((m) => [m.id, m]));
  for (const [id, { label }] of ids) {
    const found = [...byView, all].map(([a, b]) => pairOf(a, b, id)).find((p) => p !== null);
    if (found) pairs.push(found);
    else {
      const why = whyAlone(all, id, [before.date, now.date]);
      if (why) alone.push({ id, label, why });
    }
  }
  return { pairs, alone };
}

function pairOf(a: readonly Measurement[], b: readonly Measurement[], id: string): Pair | null {
  const [x, y] = [a.find((m) => m.id === id), b.find((m) => m.id === id)];
  return x && y && x.value !== null && y.value !== null && x.variant === y.variant ? [x, y] : null;
}

/** Null where it is measured on neither date: then it is no matter of comparing. */
function whyAlone(
  [a, b]: readonly [readonly Measurement[], readonly Measurement[]],
  id: string,
  [from, to]: readonly [string, string],
): string | null {
  const [x, y] = [a.find((m) => m.id === id), b.find((m) => m.id === id)];
  const [has, hasNow] = [x?.value != null, y?.value != null];
  if (has && hasNow) return 'measured by different landmarks on the two dates';
  if (!has && !hasNow) return null;
  const lacking = has ? y : x;
  const what = lacking?.missing?.length
    ? `not marked: ${lacking.missing.join(', ')}`
    : (lacking?.refused?.message ?? 'not measured');
  return `${has ? to : from}: ${what}`;
}

const measured = ({ evidence, traces }: DatedEvidence): readonly Measurement[] =>
  [...measureKnee(evidence, { keepsCauses: true }), ...measureCanals(evidence, traces ?? [])].filter(
    (m) => m.id !== 'cpak',
  );

/** One date with its films of one view alone, and of their landmarks those that the other date's films of that view carry too. */
function only(dated: DatedEvidence, other: DatedEvidence, view: View): DatedEvidence {
  const marksOf = ({ evidence }: DatedEvidence): ReadonlySet<LandmarkId> => {
    const films = new Set(evidence.films.filter((f) => f.view === view).map((f) => f.id));
    return new Set(evidence.marks.filter((m) => m.side === evidence.side && films.has(m.film)).map((m) => m.landmark));
  };
  const common = marksOf(other);
  const { evidence } = dated;
  return {
    ...dated,
    evidence: {
      ...evidence,
      films: evidence.films.filter((f) => f.view === view),
      marks: evidence.marks.filter((m) => common.has(m.landmark)),
    },
  };
}

type Unjudged = Omit<ComparedLine, 'holds'>;

function lineOf([a, b]: Pair, dates: readonly [DatedEvidence, DatedEvidence]): Unjudged | null {
  const change = changeOf(a, b, dates);
  if (!change || a.value === null || b.value === null) return null;
  const limit = MOVEMENT_LIMITS[b.id];
  return {
    id: b.id,
    label: b.label,
    unit: b.unit,
    sign: b.sign,
    rule: b.rule,
    before: { value: a.value, sd: a.sd ?? 0, film: a.film ?? '' },
    now: { value: b.value, sd: b.sd ?? 0, film: b.film ?? '' },
    change,
    larger: Math.abs(change.value) > Z95 * change.sd,
    ...(limit === undefined ? {} : { movement: { limit, reading: readMigration(change, limit) } }),
    flags: flagsOf([a, b], dates, change),
  };
}

function flagsOf([a, b]: Pair, [first, second]: readonly [DatedEvidence, DatedEvidence], change: Change): Warning[] {
  const view = ({ evidence }: DatedEvidence, m: Measurement) => evidence.films.find((f) => f.id === m.film)?.view;
  const doubtful = [...a.flags, ...b.flags].filter((f) => f.code === 'scale-doubtful');
  return [
    ...(view(first, a) === view(second, b) ? [] : [VIEWS_DIFFER]),
    ...(change.filmToFilm === null ? [FILM_UNKNOWN] : []),
    ...doubtful.slice(0, 1),
  ];
}

const VIEWS_DIFFER: Warning = {
  code: 'views-differ',
  message: 'Measured on films of different views: part of the change may be the view.',
  mend: 'Compare films of one view.',
};

const FILM_UNKNOWN: Warning = {
  code: 'film-to-film-not-known',
  message: 'How much this quantity changes when the film is merely taken again is not known and not counted.',
};

/** Holm's step-down test over all lines: from the clearest on, each must pass 5 % divided by the lines left. */
function judgedTogether(lines: readonly Unjudged[]): readonly ComparedLine[] {
  const chance = ({ change: { value, sd } }: Unjudged): number => {
    if (!(sd > 0)) return value === 0 ? 1 : 0;
    const p = chiSquareP((value / sd) ** 2, 1);
    return p.ok ? p.value : 1;
  };
  const order = lines.map((l, i) => ({ i, p: chance(l) })).sort((x, y) => x.p - y.p || x.i - y.i);
  const failsAt = order.findIndex(({ p }, k) => p > 0.05 / (order.length - k));
  const holds = new Set(order.slice(0, failsAt < 0 ? order.length : failsAt).map(({ i }) => i));
  return lines.map((l, i) => ({ ...l, holds: l.larger && holds.has(i) }));
}
