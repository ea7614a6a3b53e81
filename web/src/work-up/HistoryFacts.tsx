import { type Operation, SYMPTOMS } from '@gapline/core/work-up/history.ts';
import { DayLine, Fold, NumberLine, Pick, TextLine } from './inputs.tsx';
import { addTo, fieldOf, itemOf, newId, useSlot } from './slot.ts';
import { TriList } from './Tri.tsx';

const KINDS = [
  ['first-replacement', 'first replacement'],
  ['revision', 'revision'],
  ['debridement', 'debridement'],
  ['manipulation', 'manipulation'],
  ['fracture-fixation', 'fracture fixation'],
  ['osteotomy', 'osteotomy'],
  ['ligament', 'ligament'],
  ['arthroscopy', 'arthroscopy'],
  ['other', 'other'],
] as const satisfies readonly (readonly [Operation['kind'], string])[];

const COURSES = [
  ['never-free', 'never free of pain'],
  ['free-then-gradual', 'free, then little by little'],
  ['free-then-sudden', 'free, then suddenly'],
  ['none', 'no pain'],
] as const;

export function OperationFacts() {
  const list = useSlot<readonly Operation[]>('/workUp/history/operations');
  const all = list.value ?? [];
  const add = (): void => {
    addTo(list, { id: newId(), kind: all.length === 0 ? 'first-replacement' : 'revision' });
  };
  return (
    <Fold title="Operations on this knee" said={all.length || 'none entered'} open>
      {all.map((one, i) => {
        const slot = itemOf(list, one.id);
        return (
          <div className="row is-operation" key={one.id}>
            <DayLine label="Day or year" quiet={i > 0} slot={fieldOf(slot, 'on')} fault={dayFault(one.on)} />
            <Pick label="Operation" quiet={i > 0} none={null} options={KINDS} slot={fieldOf(slot, 'kind')} />
            <TextLine label="Note" quiet={i > 0} slot={fieldOf(slot, 'note')} />
            <Remove what={`operation ${i + 1}`} onRemove={() => slot.set(undefined)} />
          </div>
        );
      })}
      <button type="button" onClick={add}>
        Add operation
      </button>
    </Fold>
  );
}

/** A day may be known to the month or to the year; other words are kept and marked. */
function dayFault(on: string | undefined): string | null {
  if (on === undefined || /^\d{4}(-(0[1-9]|1[0-2])(-(0[1-9]|[12]\d|3[01]))?)?$/.test(on)) return null;
  return `"${on}" is no day. Give YYYY-MM-DD, YYYY-MM or YYYY.`;
}

export function SymptomFacts() {
  const course = useSlot<(typeof COURSES)[number][0]>('/workUp/history/painCourse');
  return (
    <Fold title="Symptoms" open>
      <div className="pairs">
        <Pick label="Pain since the first replacement" options={COURSES} slot={course} />
        <NumberLine label="Free of pain for" unit="months" slot={useSlot('/workUp/history/painFreeMonths')} />
      </div>
      <TriList name="symptoms" at="/workUp/history/symptoms" items={SYMPTOMS} />
    </Fold>
  );
}

export function Remove({ what, onRemove }: { readonly what: string; readonly onRemove: () => void }) {
  return (
    <button type="button" className="remove" onClick={onRemove} title={`Take away ${what}`}>
      <span aria-hidden="true">×</span>
      <span className="unseen">Take away {what}</span>
    </button>
  );
}
