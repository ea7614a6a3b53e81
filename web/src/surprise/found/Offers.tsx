import { removalEstimate } from '@gapline/core/bone/removal-loss.ts';
import { LEAST_CASES, type UpdateOffer, withOffer } from '@gapline/core/learning/offer-updates.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { useDesk, useSession } from '../../case/desk.tsx';
import { number, signed } from '../../parts/words.ts';
import { pct } from '../shares.ts';

/** What the practice's own cases would change; each is accepted for this case by a press, or left. */
export function Offers({ offers, cases }: { readonly offers: readonly UpdateOffer[]; readonly cases: number }) {
  if (offers.length === 0)
    return (
      <p className="said-line">
        {cases < LEAST_CASES
          ? `Updated distributions are offered from ${LEAST_CASES} noted cases on; fewer say nothing.`
          : 'Too little is noted for an updated distribution.'}
      </p>
    );
  return (
    <>
      <h3>Offered from these cases, never taken over unasked</h3>
      <ul className="offers">
        {offers.map((offer) => (
          <Offer key={offer.kind === 'chance' ? offer.field : offer.surface} offer={offer} />
        ))}
      </ul>
    </>
  );
}

function Offer({ offer }: { readonly offer: UpdateOffer }) {
  const { session } = useDesk();
  const file = useSession((s) => s.shown);
  const edit = editOf(offer, file);
  const words =
    offer.kind === 'chance'
      ? `${pct(offer.offered)} instead of ${pct(offer.stated)}: came in ${offer.came} of ${offer.n}`
      : `${signed(offer.offeredMm)} mm at removal: found ${signed(offer.meanMm)} mm deeper than forecast, mean of ${offer.n}; spread ${number(offer.spreadFactor, '1')} times what was said`;
  return (
    <li>
      <span>
        <strong>{offer.label}</strong> {words}
        <small>
          {' '}
          what was stated counts as {offer.priorCases} cases; ±{' '}
          {offer.kind === 'chance' ? pct(1.96 * offer.sd) : `${number(1.96 * offer.sdMm)} mm`}
        </small>
      </span>
      {edit ? (
        <button type="button" onClick={() => session.commit([edit], `${offer.label}: updated from own cases`)}>
          Accept for this case
          <span className="unseen">: {offer.label}</span>
        </button>
      ) : (
        <small>say how the present component is held, then it can be accepted</small>
      )}
    </li>
  );
}

/** The edit that accepting means; null where the case does not say how the present component is held. */
function editOf(offer: UpdateOffer, { bone }: CaseFile): Edit | null {
  if (offer.kind === 'chance')
    return { kind: 'set', field: `/forecast/${offer.field}`, value: Math.round(1000 * offer.offered) / 1000 };
  const fixation = offer.surface === 'tibia' ? bone?.tibiaFixation : bone?.femurFixation;
  if (!fixation) return null;
  const own = bone?.removalEstimates ?? [];
  const { from: _from, confirmed: _confirmed, ...estimate } = removalEstimate(fixation, offer.surface, own);
  const others = own.filter((e) => e.fixation !== fixation || e.surface !== offer.surface);
  return { kind: 'set', field: '/bone/removalEstimates', value: [...others, withOffer(estimate, offer)] };
}
