import { dayNumber, daysBetween } from '../laboratory/day.ts';
import type { Reason } from '../measure/outcome.ts';
import { CELLS } from './cells.ts';
import type { CultureSample, Organism } from './findings.ts';
import type { LabWindow } from './observe-lab.ts';
import type { TestId } from './tests.ts';

const name = (o: Organism): string => o.name.trim().toLowerCase().replace(/\s+/g, ' ');
const namesIn = (s: CultureSample): ReadonlySet<string> => new Set((s.organisms ?? []).map(name));
const isVirulent = (s: CultureSample) => (s.organisms ?? []).some((o) => o.kind === 'virulent');

/** True when two of the samples hold one organism of the same name. */
function twoAgree(samples: readonly CultureSample[]): boolean {
  const seen = new Set<string>();
  for (const s of samples)
    for (const n of namesIn(s)) {
      if (seen.has(n)) return true;
      seen.add(n);
    }
  return false;
}

const cell = (test: TestId, label: string): number => 1 << CELLS[test].findIndex((c) => c.label === label);

/**
 * INF-8: the samples as the definitions count them. The same organism in two samples is one finding of its own; different
 * organisms in two samples are single cultures. Growth at operation may yet match an aspirate that has not been read, so
 * both stay possible. A pending sample leaves everything that it could still make open.
 */
export function observeCultures(
  samples: readonly CultureSample[],
  within: LabWindow,
): readonly (readonly [TestId, number])[] {
  const end = dayNumber(within.decisionOn) ?? Number.POSITIVE_INFINITY;
  const start = (within.notBefore === undefined ? null : dayNumber(within.notBefore)) ?? Number.NEGATIVE_INFINITY;
  const inTime = samples.filter((s) => {
    if (s.takenOn === undefined) return true;
    const day = dayNumber(s.takenOn);
    return day !== null && day <= end && day >= start;
  });
  const from = (kind: CultureSample['from']) => inTime.filter((s) => s.from === kind);
  const aspirate = from('aspirate');
  const found: (readonly [TestId, number])[] = [];
  if (aspirate.length > 0) found.push(['aspirate-culture', aspirateCells(aspirate)]);
  if (from('tissue').length > 0) found.push(['tissue-culture', tissueCells(from('tissue'), aspirate)]);
  const sonication = from('sonication');
  if (sonication.length > 0) found.push(['sonication', highest(sonication.map(sonicationCells))]);
  return found;
}

/** Faults of the samples, each at its field; a sample with an impossible or future day is not used. INF-9. */
export function cultureFaults(samples: readonly CultureSample[], today: string): readonly Reason[] {
  return samples.flatMap((s): Reason[] => {
    const at = `cultures[${s.id}]`;
    const faults: Reason[] = [];
    if (s.takenOn !== undefined && dayNumber(s.takenOn) === null)
      faults.push({
        code: 'impossible-date',
        message: `${s.takenOn} is no day of the calendar.`,
        field: `${at}.takenOn`,
        mend: 'Give the day as YYYY-MM-DD.',
      });
    else if (s.takenOn !== undefined && (daysBetween(s.takenOn, today) ?? 0) < 0)
      faults.push({
        code: 'future-result',
        message: `${s.takenOn} lies after today, ${today}.`,
        field: `${at}.takenOn`,
        mend: 'Correct the day of sampling.',
      });
    if (s.cfuPerMl !== undefined && !(Number.isFinite(s.cfuPerMl) && s.cfuPerMl >= 0))
      faults.push({
        code: 'negative-value',
        message: 'A colony count is zero or more.',
        field: `${at}.cfuPerMl`,
        mend: 'Correct the count, in CFU per mL.',
      });
    if (s.growth === 'none' && ((s.organisms ?? []).length > 0 || (s.cfuPerMl ?? 0) > 0))
      faults.push({
        code: 'growth-contradicts',
        message: 'The sample is marked as without growth, yet an organism or a count is given.',
        field: `${at}.growth`,
        mend: 'Mark it as grown, or take the organism out.',
      });
    return faults;
  });
}

const grown = (samples: readonly CultureSample[]) => samples.filter((s) => s.growth === 'growth');

/** The cell of what has been read, and every higher one while a sample is pending. */
const orHigher = (test: TestId, mask: number, samples: readonly CultureSample[]): number =>
  samples.some((s) => s.growth === 'pending') ? ((1 << CELLS[test].length) - 1) & ~(mask - 1) : mask;

const hasUnnamed = (samples: readonly CultureSample[]) => samples.some((s) => namesIn(s).size === 0);

function aspirateCells(samples: readonly CultureSample[]): number {
  const test = 'aspirate-culture';
  const positive = grown(samples);
  const two = cell(test, 'same organism in two taps');
  if (twoAgree(positive)) return two;
  const label = positive.length === 0 ? 'no growth' : positive.some(isVirulent) ? 'growth, virulent' : 'growth';
  const maySame = positive.length > 1 && hasUnnamed(positive) ? two : 0;
  return orHigher(test, cell(test, label), samples) | maySame;
}

function tissueCells(samples: readonly CultureSample[], aspirate: readonly CultureSample[]): number {
  const test = 'tissue-culture';
  const positive = grown(samples);
  const two = cell(test, 'same organism in two samples');
  if (positive.length === 0) return orHigher(test, cell(test, 'no growth'), samples);
  if (twoAgree(positive)) return two;
  const virulent = positive.some(isVirulent) ? ', virulent' : '';
  const tapped = grown(aspirate);
  const match = cell(test, `same organism as the aspirate${virulent}`);
  const alone = cell(test, `growth${virulent}`);
  const mayMatch = aspirate.length === 0 || aspirate.some((s) => s.growth === 'pending');
  const unnamed = tapped.length > 0 && (hasUnnamed(tapped) || hasUnnamed(positive));
  const mask = twoAgree([...unique(tapped), ...unique(positive)]) ? match : mayMatch || unnamed ? alone | match : alone;
  const maySame = positive.length > 1 && hasUnnamed(positive) ? two : 0;
  return (samples.some((s) => s.growth === 'pending') ? orHigher(test, mask & -mask, samples) : mask) | maySame;
}

/** One sample that holds every organism of the given ones, so that agreement is looked for between the groups only. */
const unique = (samples: readonly CultureSample[]): readonly CultureSample[] =>
  samples.length === 0 ? [] : [{ ...samples[0]!, organisms: samples.flatMap((s) => s.organisms ?? []) }];

/** Colony counts: over 50 per mL, over 200 where the fluid was centrifuged (note h of EBJIS 2021, from memory). */
const SONICATION_LIMIT = 50;
const SONICATION_LIMIT_CENTRIFUGED = 200;

function sonicationCells(s: CultureSample): number {
  const test = 'sonication';
  if (s.growth === 'pending') return (1 << CELLS[test].length) - 1;
  if (s.growth === 'none') return cell(test, 'no growth');
  const limit = s.centrifuged === true ? SONICATION_LIMIT_CENTRIFUGED : SONICATION_LIMIT;
  const count = s.cfuPerMl;
  if (count === undefined || !Number.isFinite(count) || count < 0)
    return cell(test, 'a single colony') | cell(test, 'up to the limit') | cell(test, 'over the limit');
  return cell(
    test,
    count <= 0 ? 'no growth' : count <= 1 ? 'a single colony' : count <= limit ? 'up to the limit' : 'over the limit',
  );
}

/** Of several samples the one with most growth counts: every cell that is possible for one and not below any other's least. */
function highest(masks: readonly number[]): number {
  const floor = Math.max(...masks.map((m) => m & -m));
  return masks.reduce((all, m) => all | m, 0) & ~(floor - 1);
}
