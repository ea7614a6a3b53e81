import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import type { Outcome, Reason } from '../measure/outcome.ts';
import type { RuleOfThumb } from './estimate-types.ts';
import { femoralLevel } from './femoral-level.ts';
import { coronalFilms, type JointLineInput } from './joint-line-input.ts';
import { type Level, meanDistance, usable } from './level.ts';
import { tibialLevel } from './tibial-level.ts';

interface Thumb {
  readonly id: string;
  readonly label: string;
  readonly landmark: LandmarkId;
  readonly mm: number;
  readonly bone: 'femur' | 'tibia';
}

/** Common practice, no source (JL-13): shown beside the consensus, never weighted. */
export const THUMBS: readonly Thumb[] = [
  {
    id: '25-below-medial-epicondyle',
    label: '25 mm distal to the medial epicondyle',
    landmark: 'medial-epicondyle',
    mm: 25,
    bone: 'femur',
  },
  {
    id: '30-below-lateral-epicondyle',
    label: '30 mm distal to the lateral epicondyle',
    landmark: 'lateral-epicondyle',
    mm: 30,
    bone: 'femur',
  },
  {
    id: '15-above-fibular-tip',
    label: '15 mm proximal to the tip of the fibular head',
    landmark: 'fibular-tip',
    mm: 15,
    bone: 'tibia',
  },
];

/** Heights that the rules of thumb ask for, mm over the present joint line of that bone, proximal +; or why not. */
export const rulesOfThumb = (input: JointLineInput): readonly RuleOfThumb[] =>
  THUMBS.map((t) => {
    const height = heightOf(t, input);
    return {
      id: t.id,
      label: t.label,
      source: 'common practice, no source',
      ...(height.ok ? { heightMm: height.value } : { heightMm: null, cannot: height.reason }),
    };
  });

function heightOf(t: Thumb, input: JointLineInput): Outcome<number> {
  let why: Reason | null = null;
  for (const film of coronalFilms(input, input.side, 'present')) {
    const level = levelOf(t.bone, film, input);
    if (!level.ok) {
      why ??= level.reason;
      continue;
    }
    if (!usable(film, [t.landmark])) continue;
    const measured = meanDistance(level.value, [t.landmark]);
    if (!measured.ok) return measured;
    const { value } = measured.value;
    return { ok: true, value: t.bone === 'femur' ? value - t.mm : t.mm - value, warnings: level.value.warnings };
  }
  return { ok: false, reason: why ?? notMarked(t) };
}

const levelOf = (bone: Thumb['bone'], film: LimbFilm<'coronal'>, input: JointLineInput): Outcome<Level<'coronal'>> =>
  bone === 'femur'
    ? femoralLevel(film, input.state)
    : tibialLevel(film, { state: input.state, implants: input.implants });

const notMarked = (t: Thumb): Reason => ({
  code: 'landmark-missing',
  message: `Not marked on a film of this knee: the landmark of “${t.label}”.`,
  field: `marks[${t.landmark}]`,
  mend: 'Mark it on a scaled AP film.',
});
