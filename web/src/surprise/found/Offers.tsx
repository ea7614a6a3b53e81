import { LEAST_CASES, type UpdateOffer } from '@gapline/core/learning/offer-updates.ts';
import { pct } from '@gapline/core/plan/told/shares.ts';
import { useDesk, useSession } from '../../case/desk.tsx';
import { number, signed } from '../../parts/words.ts';
import { offerEdit } from './offer-edit.ts';

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
  const edit = offerEdit(offer, file);
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
