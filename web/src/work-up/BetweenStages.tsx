import { readiness } from '@gapline/core/work-up/readiness.ts';
import type { WorkUp } from '@gapline/core/work-up/work-up.ts';
import { Remove } from './HistoryFacts.tsx';
import { DayLine, Fold, Pick, TextLine } from './inputs.tsx';
import { today, useReading, useRecord } from './reading.tsx';
import { addTo, fieldOf, itemOf, newId, useSlot } from './slot.ts';

type Span = NonNullable<WorkUp['timeline']>[number];

const KINDS = [
  ['antibiotic', 'antibiotic'],
  ['holiday', 'without antibiotics'],
  ['operation', 'operation'],
  ['note', 'note'],
] as const satisfies readonly (readonly [Span['kind'], string])[];

/** Antibiotics and operations with their days; they are marked on the chart of CRP and ESR. */
export function BetweenStages() {
  const list = useSlot<readonly Span[]>('/workUp/timeline');
  const all = (list.value ?? []).toSorted((a, b) => a.from.localeCompare(b.from));
  return (
    <Fold title="Antibiotics and stages" said={all.length || 'none entered'}>
      {all.map((span, i) => {
        const slot = itemOf(list, span.id);
        return (
          <div className="row is-span" key={span.id}>
            <DayLine label="From" quiet={i > 0} slot={fieldOf(slot, 'from')} />
            <DayLine label="To" quiet={i > 0} slot={fieldOf(slot, 'to')} />
            <Pick label="Kind" quiet={i > 0} none={null} options={KINDS} slot={fieldOf(slot, 'kind')} />
            <TextLine label="What" quiet={i > 0} slot={fieldOf(slot, 'text')} />
            <Remove what={`entry from ${span.from}`} onRemove={() => slot.set(undefined)} />
          </div>
        );
      })}
      <button type="button" onClick={() => addTo(list, { id: newId(), from: today(), kind: 'antibiotic', text: '' })}>
        Add entry
      </button>
      <ReadinessFacts />
    </Fold>
  );
}

/** Between two stages: facts counted from the last operation. No cut-off is pretended where none is proven. */
function ReadinessFacts() {
  const { series } = useReading().infection.observed;
  const read = readiness(useRecord(), series, today());
  return (
    <>
      {read.faults.map((f) => (
        <p key={`${f.field} ${f.message}`} className="field-fault">
          {f.message} {f.mend}
        </p>
      ))}
      {read.stageOn !== null && (
        <div className="readiness">
          <h4>Ready for the next stage? Facts since {read.stageOn}</h4>
          <p className="said-line">{read.remark}</p>
          <ul className="test-list">
            {read.facts.map((f) => (
              <li key={f.id}>
                {f.label}: <strong>{f.text ?? 'not known'}</strong>{' '}
                <small>
                  {f.remark} {f.source}
                </small>
              </li>
            ))}
          </ul>
        </div>
      )}
    </>
  );
}
