import { removalEstimate } from '@gapline/core/bone/removal-loss.ts';
import { type UpdateOffer, withOffer } from '@gapline/core/learning/offer-updates.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';

/** The edit that accepting an offer means for this case; null where the case does not say how the present component is held. */
export function offerEdit(offer: UpdateOffer, { bone }: CaseFile): Edit | null {
  if (offer.kind === 'chance')
    return { kind: 'set', field: `/forecast/${offer.field}`, value: Math.round(1000 * offer.offered) / 1000 };
  const fixation = offer.surface === 'tibia' ? bone?.tibiaFixation : bone?.femurFixation;
  if (!fixation) return null;
  const own = bone?.removalEstimates ?? [];
  const { from: _from, confirmed: _confirmed, ...estimate } = removalEstimate(fixation, offer.surface, own);
  const others = own.filter((e) => e.fixation !== fixation || e.surface !== offer.surface);
  return { kind: 'set', field: '/bone/removalEstimates', value: [...others, withOffer(estimate, offer)] };
}
