import type { KitWorth } from '@gapline/core/kit/kit-answer.ts';
import { money, pct } from '@gapline/core/plan/told/shares.ts';

interface Props {
  readonly sets: readonly KitWorth[];
  readonly brought: ReadonlySet<string>;
  readonly missing: ReadonlySet<string>;
  readonly currency: string;
  readonly onBring: (ref: string, bring: boolean) => void;
  readonly onMissing: (ref: string, missing: boolean) => void;
}

const OWNERS = [
  ['own-shelf', 'Own shelf'],
  ['loan', 'On loan'],
] as const;

/** Every set that can be asked for, own ones and loans apart: bring it or leave it, and what that does. */
export function SetTable(props: Props) {
  return OWNERS.map(([owner, words]) => {
    const sets = props.sets.filter((s) => s.owner === owner);
    if (sets.length === 0) return null;
    const brought = sets.filter((s) => props.brought.has(s.ref)).length;
    return (
      <table key={owner} className={`set-table is-${owner}`}>
        <caption>
          <OwnerShape owner={owner} /> {words} <small>{`${brought} of ${sets.length} brought`}</small>
        </caption>
        <thead>
          <tr>
            <th scope="col">Bring</th>
            <th scope="col">Set</th>
            <th scope="col" className="share-number">
              Adds
            </th>
            <th scope="col" className="share-number">
              Cost
            </th>
            <th scope="col" className="share-number">
              Trays
            </th>
            {owner === 'loan' && <th scope="col">Order by</th>}
            <th scope="col">Will not arrive</th>
          </tr>
        </thead>
        <tbody>
          {sets.map((set) => (
            <SetRow key={set.ref} set={set} {...props} />
          ))}
        </tbody>
      </table>
    );
  });
}

/** A house for what is here, an arrow for what comes. */
function OwnerShape({ owner }: { readonly owner: KitWorth['owner'] }) {
  return (
    <svg className="owner-shape" viewBox="0 0 16 16" aria-hidden="true">
      {owner === 'own-shelf' ? <path d="M2 8 8 2l6 6v6H2Z" /> : <path d="M1 6h8V2l6 6-6 6v-4H1Z" />}
    </svg>
  );
}

function SetRow({ set, brought, missing, currency, onBring, onMissing }: Props & { readonly set: KitWorth }) {
  const isBrought = brought.has(set.ref);
  const isMissing = missing.has(set.ref);
  return (
    <tr className={`${isBrought ? 'is-brought' : ''}${isMissing ? ' is-missing' : ''}`} data-set={set.ref}>
      <td>
        <label className="tick">
          <input
            type="checkbox"
            checked={isBrought}
            disabled={isMissing}
            onChange={(event) => onBring(set.ref, event.target.checked)}
          />
          <span className="unseen">Bring {set.name}</span>
        </label>
      </td>
      <th scope="row">
        {set.name} <small>{set.ref}</small>
      </th>
      <td className="share-number">{addsWords(set.adds)}</td>
      <td className="share-number">{money(set.cost, currency)}</td>
      <td className="share-number">{set.trays}</td>
      {set.owner === 'loan' && (
        <td>
          <OrderBy set={set} />
        </td>
      )}
      <td>
        <label className="tick">
          <input type="checkbox" checked={isMissing} onChange={(event) => onMissing(set.ref, event.target.checked)} />
          <span className="unseen">{set.name} will not arrive</span>
        </label>
      </td>
    </tr>
  );
}

function OrderBy({ set }: { readonly set: KitWorth }) {
  return (
    <>
      <span className="order-by">
        {set.late ? <strong className="late">too late: {set.orderBy}</strong> : (set.orderBy ?? 'no day set')}
      </span>
      <small className="order-by">{set.leadDays} working days</small>
    </>
  );
}

const addsWords = (adds: number): string => (adds <= 0 ? '–' : `+ ${pct(adds)}`);
