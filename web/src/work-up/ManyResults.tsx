import type { LabResult } from '@gapline/core/laboratory/lab-result.ts';
import { type DragEvent, useId, useState } from 'react';
import { faultText } from '../parts/fault-text.ts';
import { addTo, newId, type Slot } from './slot.ts';
import { type LaboratoryRead, readLaboratory } from './wire.ts';

/** Many results at once: rows from a spreadsheet, or a FHIR Bundle, pasted or dropped. */
export function ManyResults({ list }: { readonly list: Slot<readonly LabResult[]> }) {
  const [text, setText] = useState('');
  const [fault, setFault] = useState<string | null>(null);
  const [read, setRead] = useState<{ readonly added: number; readonly rest: LaboratoryRead['notTaken'] } | null>(null);
  const [over, setOver] = useState(false);
  const id = useId();
  const take = async (source: string): Promise<void> => {
    if (source.trim() === '') return;
    setFault(null);
    setRead(null);
    try {
      const { results, notTaken } = await readLaboratory(source);
      const fresh = results.filter((r) => !(list.value ?? []).some((there) => sameResult(there, r)));
      const said = fresh.length === 0 ? null : addTo(list, ...fresh.map((r) => ({ ...r, id: newId() })));
      if (said) return setFault(said);
      setRead({ added: fresh.length, rest: notTaken });
      setText('');
    } catch (reason) {
      setFault(faultText(reason));
    }
  };
  const onDrop = (event: DragEvent): void => {
    event.preventDefault();
    setOver(false);
    const [file] = event.dataTransfer.files;
    if (file) void file.text().then(take);
    else void take(event.dataTransfer.getData('text'));
  };
  return (
    <section
      aria-label="Many results at once"
      className={`many-results${over ? ' is-over' : ''}`}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={onDrop}
    >
      <label htmlFor={id}>Many at once: paste or drop rows (date, test, value, unit) or a FHIR Bundle</label>
      <div className="label-line">
        <textarea
          id={id}
          rows={1}
          value={text}
          spellCheck={false}
          onChange={(event) => setText(event.target.value)}
          onPaste={(event) => {
            const pasted = event.clipboardData.getData('text');
            if (!pasted.includes('\n') && !pasted.trimStart().startsWith('{')) return;
            event.preventDefault();
            setText(pasted);
            void take(pasted);
          }}
        />
        <button type="button" disabled={text.trim() === ''} onClick={() => void take(text)}>
          Read
        </button>
      </div>
      <div role="status">
        {fault && <p className="field-fault">{fault}</p>}
        {read && <p className="said-line">{read.added} results added.</p>}
        {read && read.rest.length > 0 && (
          <>
            <p className="said-line">{read.rest.length} lines not taken:</p>
            <ul className="not-taken">
              {read.rest.map((n) => (
                <li key={`${n.entry} ${n.reason.message}`}>
                  <code>{n.entry}</code> {n.reason.message} {n.reason.mend}
                </li>
              ))}
            </ul>
          </>
        )}
      </div>
    </section>
  );
}

/** The same entry twice, whatever its name in the list. */
function sameResult(a: LabResult, b: LabResult): boolean {
  const { id: _a, ...left } = a;
  const { id: _b, ...right } = b;
  const keys = new Set([...Object.keys(left), ...Object.keys(right)]) as Set<keyof typeof left>;
  return [...keys].every((key) => left[key] === right[key]);
}
