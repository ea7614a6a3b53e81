import type { Forecast } from '@gapline/core/forecast/forecast-types.ts';
import { Fold, NumberLine } from '../../work-up/inputs.tsx';
import { type Slot, useSlot } from '../../work-up/slot.ts';

const CHANCES = [
  ['fractureChance', 'Fracture at removal'],
  ['infectionChance', 'Unexpected infection'],
  ['femurWorseChance', 'Femur one class worse'],
  ['tibiaWorseChance', 'Tibia one class worse'],
  ['mclWorseChance', 'Medial collateral worse'],
  ['lclWorseChance', 'Lateral collateral worse'],
] as const;

/** A share that is typed and read in per cent. */
export function inPercent(slot: Slot<number>): Slot<number> {
  return {
    value: slot.value === undefined ? undefined : Math.round(slot.value * 1e8) / 1e6,
    set: (next, how) => slot.set(next === undefined ? undefined : Math.round(next * 1e6) / 1e8, how),
  };
}

/** What the draws are made from besides the films: chances, their number and their seed. */
export function ForecastInputs({ notStated }: { readonly notStated: Forecast['notStated'] }) {
  const chances = notStated.length === 0 ? 'all stated' : `${notStated.length} not stated`;
  return (
    <Fold title="Chances, draws and seed" said={chances}>
      <p className="said-line">
        A chance that is not stated counts as not happening. All chances are the surgeon's own estimate.
      </p>
      <div className="pairs">
        {CHANCES.map(([field, label]) => (
          <ChanceLine key={field} field={field} label={label} />
        ))}
        <DrawLine field="draws" label="Draws" />
        <DrawLine field="seed" label="Seed" />
      </div>
      {notStated.length > 0 && (
        <dl className="not-stated">
          {notStated.map((n) => (
            <div key={`${n.field} ${n.what}`}>
              <dt>{n.what}</dt>
              <dd>{n.wouldChange}</dd>
            </div>
          ))}
        </dl>
      )}
    </Fold>
  );
}

function ChanceLine({ field, label }: { readonly field: string; readonly label: string }) {
  const slot = useSlot<number>(`/forecast/${field}`);
  return <NumberLine label={label} slot={inPercent(slot)} unit="%" placeholder="not stated" />;
}

function DrawLine({ field, label }: { readonly field: 'draws' | 'seed'; readonly label: string }) {
  const slot = useSlot<number>(`/forecast/${field}`);
  return <NumberLine label={label} slot={slot} placeholder={field === 'draws' ? '2,000' : '1'} />;
}
