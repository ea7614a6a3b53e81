import {
  LUCENT_COMPONENTS,
  type LucentComponent,
  type LucentReading,
  readLucentLines,
} from '../failure/lucent-lines.ts';
import type { Known } from '../measure/known.ts';
import type { Outcome } from '../measure/outcome.ts';
import type { DerivedEvidence } from './evidence-from-history.ts';
import type { WorkUp } from './work-up.ts';

export type LucentReadings = Readonly<Partial<Record<LucentComponent, Outcome<LucentReading>>>>;

const progressingOf = (known: Known | undefined): boolean | null =>
  known === 'yes' ? true : known === 'no' ? false : null;

/** Both published readings of every component that was charted (CAUSE-3). */
export function lucentReadings(lines: WorkUp['lucentLines']): LucentReadings {
  const charted = LUCENT_COMPONENTS.flatMap((component) => {
    const chart = lines?.[component];
    return chart
      ? [[component, readLucentLines(component, chart.widths, progressingOf(chart.progressing))] as const]
      : [];
  });
  return Object.fromEntries(charted);
}

/**
 * WU-8: what the chart of lucent lines says about causes. A line that progresses, or one complete and 2 mm or wider, on
 * any component is present. Absent only where everything charted was looked at in full and progress was asked for.
 * A thin stable line: every line under 2 mm, none progressing. A chart that core refuses says nothing.
 */
export function evidenceFromLucentLines(lines: WorkUp['lucentLines']): readonly DerivedEvidence[] {
  const read = Object.entries(lucentReadings(lines)).flatMap(([component, r]) =>
    r.ok ? [{ component: component as LucentComponent, reading: r.value }] : [],
  );
  if (read.length === 0) return [];
  const state = read.map(({ component, reading }) => ({
    progress: progressingOf(lines?.[component]?.progressing),
    wide: reading.reading2015.width === '2-mm-or-more',
    complete: reading.reading2015.extent === 'complete',
    none: reading.reading2015.width === 'none',
    all: reading.zonesNotLookedAt === 0,
  }));
  const because = `Chart of lucent lines: ${read.map((r) => `${r.component} ${r.reading.sumMm} mm in sum`).join(', ')}.`;
  const loose = state.some((s) => s.progress === true || (s.wide && s.complete));
  const seen = state.every((s) => s.all && (s.none || s.progress === false));
  const thin = seen && state.some((s) => !s.none) && state.every((s) => !s.wide);
  const say = (id: DerivedEvidence['id'], present: boolean): DerivedEvidence => ({
    id,
    looked: present ? 'present' : 'absent',
    because,
  });
  if (loose) return [say('lucent-line-progressive-or-complete', true), say('lucent-line-thin-stable', false)];
  return seen ? [say('lucent-line-progressive-or-complete', false), say('lucent-line-thin-stable', thin)] : [];
}
