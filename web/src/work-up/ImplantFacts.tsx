import { HARD_FEATURES, type HardFeature, type ImplantedPart } from '@gapline/core/work-up/history.ts';
import { useState } from 'react';
import { Remove } from './HistoryFacts.tsx';
import { Fold, Pick, TextLine } from './inputs.tsx';
import { LabelBox } from './LabelBox.tsx';
import { addTo, fieldOf, itemOf, newId, type Slot, useSlot } from './slot.ts';
import type { LabelRead } from './wire.ts';

const PARTS = [
  ['femoral-component', 'femoral component'],
  ['tray', 'tibial tray'],
  ['insert', 'insert'],
  ['patellar-button', 'patellar button'],
  ['femoral-stem', 'femoral stem'],
  ['tibial-stem', 'tibial stem'],
  ['augment', 'augment'],
  ['other', 'other, or not yet named'],
] as const satisfies readonly (readonly [ImplantedPart['part'], string])[];

const FIXATIONS = [
  ['cemented', 'cemented'],
  ['uncemented', 'uncemented'],
  ['hybrid', 'hybrid'],
] as const;

/** What is in the knee now, part by part, typed or read from labels. */
export function ImplantFacts() {
  const list = useSlot<readonly ImplantedPart[]>('/workUp/history/parts');
  const [said, setSaid] = useState<string | null>(null);
  const all = list.value ?? [];
  const takeLabel = (label: LabelRead): void => {
    if (all.some((p) => sameLabel(p, label))) {
      setSaid('This label is in the list already.');
      return;
    }
    const { device, lot, serial, expires } = label;
    const part: ImplantedPart = {
      id: newId(),
      part: 'other',
      from: 'label',
      ...(device === undefined ? {} : { device }),
      ...(lot === undefined ? {} : { lot }),
      ...(serial === undefined ? {} : { serial }),
      ...(expires === undefined ? {} : { expires }),
    };
    setSaid(addTo(list, part) ?? 'Added below. Say which part it is.');
  };
  return (
    <Fold title="Implants in the knee" said={all.length || 'none entered'}>
      <LabelBox onLabel={takeLabel} said={said} />
      {all.map((part, i) => (
        <PartCard key={part.id} number={i + 1} slot={itemOf(list, part.id)} />
      ))}
      <button type="button" onClick={() => addTo(list, { id: newId(), part: nextPart(all) })}>
        Add part by hand
      </button>
    </Fold>
  );
}

const sameLabel = (p: ImplantedPart, l: LabelRead): boolean =>
  p.from === 'label' && p.device === l.device && p.lot === l.lot && p.serial === l.serial;

/** The usual parts in their usual order. */
const nextPart = (all: readonly ImplantedPart[]): ImplantedPart['part'] =>
  PARTS.map(([id]) => id).find((id) => !all.some((p) => p.part === id)) ?? 'other';

function PartCard({ number, slot }: { readonly number: number; readonly slot: Slot<ImplantedPart> }) {
  const part = slot.value;
  if (!part) return null;
  const facts = [
    part.device && `device ${part.device}`,
    part.lot && `lot ${part.lot}`,
    part.serial && `serial ${part.serial}`,
    part.expires && `expiry on the label ${part.expires}`,
  ].filter((fact) => fact);
  return (
    <fieldset className="part-card">
      <legend className="unseen">Part {number}</legend>
      <div className="row is-part">
        <Pick label={`Part ${number}`} quiet none={null} options={PARTS} slot={fieldOf(slot, 'part')} />
        <Pick label="Fixation" quiet none="fixation not known" options={FIXATIONS} slot={fixationOf(slot)} />
        <Remove what={`part ${number}`} onRemove={() => slot.set(undefined)} />
      </div>
      {facts.length > 0 && <p className="part-facts">{facts.join(' · ')}</p>}
      <details className="part-more">
        <summary>
          Hard to remove: {(part.features ?? []).map(featureLabel).join(', ').toLowerCase() || 'nothing noted'}
        </summary>
        <FeatureChecks slot={fieldOf(slot, 'features')} />
        <div className="pairs">
          <TextLine label="Reference" slot={fieldOf(slot, 'reference')} />
          <TextLine label="Lot" slot={fieldOf(slot, 'lot')} />
          <TextLine label="Size" slot={fieldOf(slot, 'sizeNote')} />
          <TextLine label="Known from" slot={fieldOf(slot, 'from')} />
        </div>
      </details>
    </fieldset>
  );
}

const featureLabel = (id: HardFeature): string => HARD_FEATURES.find((f) => f.id === id)?.label ?? id;

function fixationOf(slot: Slot<ImplantedPart>): Slot<(typeof FIXATIONS)[number][0]> {
  const all = fieldOf(slot, 'fixation');
  return { value: all.value === 'unknown' ? undefined : all.value, set: all.set };
}

function FeatureChecks({ slot }: { readonly slot: Slot<readonly HardFeature[]> }) {
  const chosen = slot.value ?? [];
  const turn = (id: HardFeature, on: boolean): void => {
    const next = HARD_FEATURES.map((f) => f.id).filter((f) => (f === id ? on : chosen.includes(f)));
    slot.set(next.length === 0 ? undefined : next);
  };
  return (
    <div className="feature-checks">
      {HARD_FEATURES.map((feature) => (
        <label key={feature.id} className="choice">
          <input
            type="checkbox"
            checked={chosen.includes(feature.id)}
            onChange={(event) => turn(feature.id, event.target.checked)}
          />
          <span>{feature.label}</span>
        </label>
      ))}
    </div>
  );
}
