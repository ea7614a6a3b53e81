import type { Origin } from '@gapline/core/plan/plan.ts';
import { useState } from 'react';
import { usePlanning } from '../../case/desk.tsx';
import { number } from '../../parts/words.ts';
import { Fold, NumberLine } from '../../work-up/inputs.tsx';
import { fieldOf, type Slot, useSlot } from '../../work-up/slot.ts';
import { useForecasting } from '../forecast/forecasting-context.tsx';

type Spreads = Readonly<Record<string, number>>;

/** Where the spreads of the bone state come from; one that is missing is asked for, never taken as none. */
export function StatedSpreads() {
  const bone = usePlanning((s) => s.plan.bone);
  return bone.ok && <SpreadTable origins={bone.value.origins} />;
}

function SpreadTable({ origins }: { readonly origins: readonly Origin[] }) {
  const answer = useForecasting((s) => s.answer);
  const slot = useSlot<Spreads>('/forecast/spreads');
  const lengths = origins.filter((o) => typeof o.value === 'number' && (o.unit === 'mm' || o.unit === 'deg'));
  const open = lengths.filter((o) => o.sd === null && slot.value?.[o.field] === undefined);
  const why = (field: string): string | undefined =>
    answer?.missing.find((m) => m.field === `forecast.spreads.${field}`)?.wouldChange;
  // Open at the start where something is asked for; afterwards it stays as the hand leaves it.
  const [asks] = useState(open.length > 0);
  const said = open.length === 0 ? 'every one known or stated' : `${open.length} not stated`;
  return (
    <Fold title="Spreads" said={said} open={asks}>
      <table className="spreads">
        <thead>
          <tr>
            <th scope="col">Quantity</th>
            <th scope="col" className="share-number">
              Expected
            </th>
            <th scope="col">Standard deviation</th>
          </tr>
        </thead>
        <tbody>
          {lengths.map((o) => (
            <SpreadRow key={o.field} origin={o} slot={slot} why={why(o.field)} />
          ))}
        </tbody>
      </table>
    </Fold>
  );
}

function SpreadRow({
  origin,
  slot,
  why,
}: {
  readonly origin: Origin;
  readonly slot: Slot<Spreads>;
  readonly why: string | undefined;
}) {
  const { field, label, unit, sd, value, from } = origin;
  const all = slot.value ?? {};
  const stated: Slot<number> = fieldOf({ ...slot, value: all }, field);
  return (
    <tr className={sd === null && stated.value === undefined ? 'is-asked' : undefined}>
      <th scope="row">{label}</th>
      <td className="share-number">{typeof value === 'number' ? `${number(value, unit)} ${unit}` : value}</td>
      <td>
        {sd === null ? (
          <NumberLine
            label={`Standard deviation, ${label}`}
            quiet
            slot={stated}
            unit={unit}
            placeholder="asked for"
            hint={why}
          />
        ) : (
          <>
            {number(sd, unit)} {unit} <small>{from}</small>
          </>
        )}
      </td>
    </tr>
  );
}
