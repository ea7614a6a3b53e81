import { BONE_CLASSES } from '@gapline/core/bone/class-worse.ts';
import type { Found } from '@gapline/core/learning/found.ts';
import { useDesk, usePlanning, useSession } from '../../case/desk.tsx';
import { PairField } from '../../parts/fields.tsx';
import { number } from '../../parts/words.ts';
import { DayLine, TextLine } from '../../work-up/inputs.tsx';
import { today } from '../../work-up/reading.tsx';
import { useSlot } from '../../work-up/slot.ts';
import { foundAsPlanned } from './as-planned.ts';
import { UsedParts } from './UsedParts.tsx';

/** What was found and used, in one minute: everything as planned at one press, then what was otherwise. */
export function FoundForm() {
  const { session } = useDesk();
  const found = useSession((s) => s.shown.found);
  const construct = usePlanning((s) => s.plan.construct);
  const planned = construct.kind === 'solved' ? construct.answer.best.construct : null;
  if (!found) {
    const begin = (how: 'as-planned' | 'empty'): void => {
      const { shown } = session.store.getState();
      const dayOfSurgery = shown.kit?.surgeryOn;
      const on = dayOfSurgery !== undefined && dayOfSurgery <= today() ? dayOfSurgery : today();
      const value: Found = how === 'empty' ? { on } : foundAsPlanned(shown, planned, on);
      session.commit([{ kind: 'set', field: '/found', value }], 'Found at surgery');
    };
    return (
      <div className="buttons">
        <button type="button" className="is-main" onClick={() => begin('as-planned')}>
          After surgery: all as planned
        </button>
        <button type="button" onClick={() => begin('empty')}>
          Start empty
        </button>
      </div>
    );
  }
  return (
    <div className="found-form">
      <FoundTaps />
      <UsedParts planned={planned} />
      <Lengths />
      <button
        type="button"
        className="as-link"
        onClick={() => session.commit([{ kind: 'set', field: '/found', value: null }], 'Findings taken back')}
      >
        Take all findings back
      </button>
    </div>
  );
}

const CLASSES = BONE_CLASSES.map((one) => [one, one] as const);
const LIGAMENTS = [
  ['intact', 'intact'],
  ['attenuated', 'attenuated'],
  ['absent', 'absent'],
] as const;
const NO_YES = [
  [false, 'no'],
  [true, 'yes'],
] as const;
const YES_NO = [
  [true, 'yes'],
  [false, 'no'],
] as const;

function FoundTaps() {
  const sufficed = useSession((s) => s.shown.found?.kitSufficed);
  const missed = useSlot<string>('/found/missed');
  return (
    <div className="found-taps">
      <DayLine label="Day of the operation" slot={useSlot<string>('/found/on')} />
      <TextLine label="Entered by" slot={useSlot<string>('/found/by')} />
      <Row label="Femur, class" at="/found/femurClass" options={CLASSES} />
      <Row label="Tibia, class" at="/found/tibiaClass" options={CLASSES} />
      <Row label="Medial collateral" at="/found/mcl" options={LIGAMENTS} />
      <Row label="Lateral collateral" at="/found/lcl" options={LIGAMENTS} />
      <Row label="Fracture" at="/found/fracture" options={NO_YES} />
      <Row label="Infection found" at="/found/infection" options={NO_YES} />
      <Row label="Nothing was missing" at="/found/kitSufficed" options={YES_NO} />
      {sufficed === false && <TextLine label="What was missing" slot={missed} />}
    </div>
  );
}

/** One line of choices; pressed again, nothing is noted. */
function Row<V extends string | boolean>(props: {
  readonly label: string;
  readonly at: string;
  readonly options: readonly (readonly [V, string])[];
}) {
  const slot = useSlot<V>(props.at);
  return (
    <fieldset className="found-row">
      <legend>{props.label}</legend>
      {props.options.map(([value, words]) => (
        <button
          key={words}
          type="button"
          aria-pressed={slot.value === value}
          onClick={() => slot.set(slot.value === value ? undefined : value)}
        >
          {words}
        </button>
      ))}
      {slot.value === undefined && <small>not noted</small>}
    </fieldset>
  );
}

/** Supports as measured at the trial, beside what was expected. */
function Lengths() {
  const bone = usePlanning((s) => s.plan.bone);
  const expected = bone.ok ? bone.value.state : null;
  const words = (pair: { readonly medial: number; readonly lateral: number } | undefined): string =>
    pair ? `expected ${number(pair.medial)} medial, ${number(pair.lateral)} lateral` : '';
  return (
    <details>
      <summary>Bone measured, mm from the target joint line</summary>
      <div className="found-lengths">
        <PairField label={`Distal femur (${words(expected?.femurDistalMm)})`} field="/found/femurDistalMm" />
        <PairField label={`Posterior femur (${words(expected?.femurPosteriorMm)})`} field="/found/femurPosteriorMm" />
        <PairField label={`Tibia (${words(expected?.tibiaMm)})`} field="/found/tibiaMm" />
      </div>
    </details>
  );
}
