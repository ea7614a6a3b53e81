import type { Measurement } from '@gapline/core/limb/measurement.ts';

export interface MeasurementGroup {
  readonly title: string;
  readonly lines: readonly Measurement[];
}

/** The table in the order in which a surgeon reads a knee; the first group whose test fits takes the line. */
const GROUPS: readonly (readonly [title: string, fits: (id: string) => boolean])[] = [
  [
    'Component position',
    (id) =>
      /^component-|^femoral-component-(coronal|flexion|translation|height)|^tray-(coronal|translation|height)|flange-gap/.test(
        id,
      ),
  ],
  ['Overhang', (id) => /overhang/.test(id)],
  ['Canals and bow', (id) => /canal|cortex|bow/.test(id)],
  ['Patella', (id) => /patella|insall|blackburne|caton/.test(id)],
  ['Opening under stress', (id) => /stress/.test(id)],
  ['The film itself', (id) => id === 'posterior-condyles-apart'],
  ['Widths and lengths', (id) => /width|length/.test(id)],
  ['Limb and joint line', () => true],
];

/** What is shown first: the limb itself. */
const ORDER = ['Limb and joint line', ...GROUPS.map(([title]) => title).slice(0, -1)];

/** Lines by group, groups without lines left out; within a group as they come. */
export function groupsOf(lines: readonly Measurement[]): readonly MeasurementGroup[] {
  const title = (m: Measurement) => GROUPS.find(([, fits]) => fits(m.id))?.[0];
  return ORDER.map((t) => ({ title: t, lines: lines.filter((m) => title(m) === t) })).filter((g) => g.lines.length > 0);
}
