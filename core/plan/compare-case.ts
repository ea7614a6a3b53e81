import { type Comparison, compareDates } from '../compare/compare-dates.ts';
import type { DatedEvidence } from '../compare/dated-evidence.ts';
import {
  LUCENT_COMPONENTS,
  type LucentComponent,
  type LucentProgress,
  type MeasuredZone,
  readLucentProgress,
  ZONES,
} from '../failure/lucent-lines.ts';
import { type SpanWidth, widestByZone } from '../limb/interface-span.ts';
import { calibrateFilms } from './calibrate-films.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import { checkCase, soundPart } from './check-case.ts';
import { evidenceFor } from './make-plan.ts';

/** The films of one day. */
export interface FilmDate {
  /** `YYYY-MM-DD`. */
  readonly on: string;
  readonly films: readonly CaseFilm[];
}

/** Lucent lines of one component on two dates. */
export interface ComparedLines {
  readonly component: LucentComponent;
  readonly progress: LucentProgress;
}

export interface CaseComparison extends Comparison {
  readonly lucentLines: readonly ComparedLines[];
}

/**
 * Days on which films of the operated knee were taken, oldest first (CMP-1). Undated and held films belong to none; films from before the first replacement
 * show another joint and are left out.
 */
export function datesOf(whole: CaseFile): readonly FilmDate[] {
  const file = soundPart(whole, checkCase(whole));
  const days = new Map<string, CaseFilm[]>();
  for (const film of file.films) {
    const { takenOn } = film;
    if (!takenOn || film.view === 'ct' || film.role === 'before-first-replacement') continue;
    if (film.side !== 'both' && film.side !== file.side) continue;
    days.set(takenOn, [...(days.get(takenOn) ?? []), film]);
  }
  return [...days].sort(([a], [b]) => (a < b ? -1 : 1)).map(([on, films]) => ({ on, films }));
}

/** Why two dates cannot be compared, and what it would take; null where they can. */
export function whyNoDates(whole: CaseFile): string | null {
  const dates = datesOf(whole);
  if (dates.length >= 2) return null;
  const undated = whole.films.filter((f) => !f.takenOn).length;
  const missing = dates.length === 1 ? 'Only one date has films of this knee' : 'No film of this knee carries a date';
  const more = undated > 0 ? ` ${undated} ${undated === 1 ? 'film carries' : 'films carry'} none.` : '';
  return `${missing}: a second one would show what moved.${more}`;
}

/** Two dates of the operated knee side by side (CMP rules): the films of each day read as the present ones, with their scales and traces. */
export function compareCase(whole: CaseFile, from: string, to: string): CaseComparison {
  const file = soundPart(whole, checkCase(whole));
  const [before, now] = [from, to].map((on) => datedOf(file, on)) as [DatedEvidence, DatedEvidence];
  return { ...compareDates(before, now), lucentLines: lucentLines(file, before, now) };
}

function datedOf(file: CaseFile, on: string): DatedEvidence {
  const films = file.films
    .filter((f) => f.takenOn === on && f.role !== 'before-first-replacement' && f.view !== 'ct')
    .map((f): CaseFilm => ({ ...f, role: 'present' }));
  const day: CaseFile = { ...file, films };
  const objects = films.flatMap(({ id, scale }): [string, string][] =>
    scale?.kind === 'known-implant' ? [[id, `${scale.part} ${scale.side} ${scale.widthMm}`]] : [],
  );
  return {
    date: on,
    evidence: evidenceFor(day, calibrateFilms(day)),
    ...(file.canals ? { traces: file.canals } : {}),
    scaleObjects: new Map(objects),
  };
}

/** Components with a lucent line measured on either date, zone by zone. */
function lucentLines(file: CaseFile, before: DatedEvidence, now: DatedEvidence): readonly ComparedLines[] {
  return LUCENT_COMPONENTS.flatMap((component) => {
    const [a, b] = [before, now].map(({ evidence }) =>
      widestByZone(file.interfaceSpans ?? [], evidence, { kind: 'lucent-line', component }),
    );
    if (!a || !b || a.size + b.size === 0) return [];
    const progress = readLucentProgress(zonesOf(a, component), zonesOf(b, component));
    return progress.ok ? [{ component, progress: progress.value }] : [];
  });
}

const zonesOf = (
  widths: ReadonlyMap<number, SpanWidth>,
  component: LucentComponent,
): readonly (MeasuredZone | null)[] => Array.from({ length: ZONES[component] }, (_, i) => widths.get(i + 1) ?? null);
