import type { BoneQuality } from '@gapline/core/bone/bone-class.ts';
import { FIXATIONS_IN_PLACE, type FixationInPlace } from '@gapline/core/bone/bone-map.ts';
import { Pick } from '../../work-up/inputs.tsx';
import { useSlot } from '../../work-up/slot.ts';
import type { BoneName } from './bone-drawing.ts';

const FIXATION_WORDS: Readonly<Record<FixationInPlace, string>> = {
  loose: 'loose',
  cemented: 'cemented',
  'cemented-stem': 'cemented, with a cemented stem',
  ingrown: 'grown in',
  'ingrown-stem': 'grown in, with a grown-in stem',
  'sleeve-or-cone': 'grown-in sleeve or cone',
};
const QUALITIES = [
  ['good', 'good'],
  ['sclerotic', 'sclerotic'],
  ['osteoporotic', 'osteoporotic'],
] as const satisfies readonly (readonly [BoneQuality, string])[];

/** Quality of the bone, and how the present component is held: what its removal may take hangs on it. */
export function FixationLines({ bone }: { readonly bone: BoneName }) {
  return (
    <div className="pairs">
      <Pick label="Quality of the bone" slot={useSlot<BoneQuality>(`/bone/${bone}Quality`)} options={QUALITIES} />
      <Pick
        label="Present component"
        slot={useSlot<FixationInPlace>(`/bone/${bone}Fixation`)}
        options={FIXATIONS_IN_PLACE.map((one) => [one, FIXATION_WORDS[one]])}
      />
    </div>
  );
}
