import { type CanalOfBone, type StemView, WALL_WORDS } from './canal-view.ts';
import { type ChosenOffset, NO_OFFSET_MM, type OffsetDirection } from './offset-direction.ts';
import type { StemInView } from './stem-in-view.ts';
import type { Bypass } from './tip-checks.ts';

interface Judged {
  readonly ap: StemInView | null;
  readonly lateral: StemInView | null;
  readonly bypass: readonly Bypass[];
  readonly offset: (OffsetDirection & { readonly choice: ChosenOffset }) | null;
}

const NAMES: Readonly<Record<StemView, string>> = { ap: 'AP', lateral: 'lateral' };
/** What the view that is not traced leaves open. */
const LEFT_OPEN: Readonly<Record<StemView, string>> = {
  ap: 'alignment not judged',
  lateral: 'bow not judged',
};

const mm = (v: number) => `${v.toFixed(0)} mm`;
const deg = (v: number) => `${Math.abs(v).toFixed(1)} degrees`;

function inView(found: StemInView): string {
  const walls = WALL_WORDS[found.view];
  const towards = (found.tiltDeg ?? 0) > 0 ? walls.high : walls.low;
  const name = NAMES[found.view];
  const longest = found.longestMm === null ? '' : ` (longest that passes: ${mm(Math.floor(found.longestMm))})`;
  switch (found.standing) {
    case 'stopped': {
      const tip = found.contacts.at(-1);
      const where = tip ? ` by the ${walls[tip.wall]} cortex ${mm(tip.zMm)} from the joint line` : '';
      return `is stopped on the ${name}${where}${longest}`;
    }
    case 'tilts':
      return `passes on the ${name} only with its tip ${deg(found.tiltDeg ?? 0)} ${towards}, more than is accepted${longest}`;
    case 'beyond-trace':
      return `passes on the ${name} as far as it is traced`;
    case 'passes':
      return found.tiltDeg !== null && Math.abs(found.tiltDeg) >= 0.05
        ? `passes on the ${name} with its tip ${deg(found.tiltDeg)} ${towards}`
        : `passes on the ${name}`;
  }
}

/** The verdict on a stem in one plain sentence, both views and what is not traced. */
export function saysOf(judged: Judged, canal: CanalOfBone): string {
  const parts = (['ap', 'lateral'] as const).map((view) => {
    const found = judged[view];
    if (found) return inView(found);
    return canal[view] === null
      ? `the ${NAMES[view]} is not traced: ${LEFT_OPEN[view]}`
      : `the trace on the ${NAMES[view]} does not reach it: ${LEFT_OPEN[view]}`;
  });
  const short = judged.bypass.flatMap((b) =>
    b.standing === 'not-met'
      ? [
          `${b.wantedMm === null ? 'does not pass' : `ends ${mm(b.wantedMm - b.beyondMm)} short of two diameters past`} the ${b.spot.kind.replace('-', ' ')}`,
        ]
      : [],
  );
  return [...parts, ...offsetWords(judged.offset), ...short].join('; ');
}

/** How far the component must stand off its stem, and what the nearest coupler leaves of it. */
function offsetWords(offset: Judged['offset']): readonly string[] {
  if (!offset || offset.sizeMm < NO_OFFSET_MM) return [];
  const clock = offset.clock === null ? '' : ` at ${Math.floor(offset.clock)}${offset.clock % 1 ? ':30' : ''} o'clock`;
  const { coupler, restMm } = offset.choice;
  const left = restMm < NO_OFFSET_MM ? '' : `, ${restMm.toFixed(1)} mm off`;
  return [
    `the component wants to stand ${offset.words} of its stem${clock} (${coupler ? coupler.name.toLowerCase() : 'no coupler'}${left})`,
  ];
}
