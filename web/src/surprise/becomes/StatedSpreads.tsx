import { fieldOf as lengthOf, measuredFields } from '@gapline/core/forecast/field.ts';
import { FIELD_LABELS } from '@gapline/core/forecast/lengths.ts';
import type { SpreadField } from '@gapline/core/forecast/uncertain-knee.ts';
import type { BoneState } from '@gapline/core/gaps/bone-state.ts';
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
  return bone.ok && <SpreadTable state={bone.value.state} origins={bone.value.origins} />;
}

function SpreadTable({ state, origins }: { readonly state: BoneState; readonly origins: readonly Origin[] }) {
  const answer = useForecasting((s) => s.answer);
  const slot = useSlot<Spreads>('/forecast/spreads');
  const rows = measuredFields(state).map((field) => ({
    field,
    value: lengthOf(state, field) ?? 0,
    measured: origins.find((o) => o.field === field && o.sd !== null) ?? null,
    why: answer?.missing.find((m) => m.field === `forecast.spreads.${field}`)?.wouldChange,
  }));
  const open = rows.filter((r) => r.measured === null && slot.value?.[r.field] === undefined).length;
  // Open at the start where something is asked for; afterwards it stays as the hand leaves it.
  const [asks] = useState(open > 0);
  return (
    <Fold title="Spreads" said={open === 0 ? 'every one known or stated' : `${open} not stated`} open={asks}>
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
          {rows.map((row) => (
            <SpreadRow key={row.field} row={row} slot={slot} />
          ))}
        </tbody>
      </table>
    </Fold>
  );
}

interface Row {
  readonly field: SpreadField;
  readonly value: number;
  /** Where its spread was measured; null = it is stated by hand or asked for. */
  readonly measured: Origin | null;
  readonly why: string | undefined;
}

function SpreadRow({ row, slot }: { readonly row: Row; readonly slot: Slot<Spreads> }) {
  const { field, value, measured, why } = row;
  const unit = field === 'referenceSlopeDeg' ? 'deg' : 'mm';
  const stated: Slot<number> = fieldOf({ ...slot, value: slot.value ?? {} }, field);
  const label = FIELD_LABELS[field];
  return (
    <tr className={measured === null && stated.value === undefined ? 'is-asked' : undefined}>
      <th scope="row">{label}</th>
      <td className="share-number">
        {number(value, unit)} {unit}
      </td>
      <td>
        {measured === null ? (
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
            {number(measured.sd ?? 0, unit)} {unit} <small>{measured.from}</small>
          </>
        )}
      </td>
    </tr>
  );
}
