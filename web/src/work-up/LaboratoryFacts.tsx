import { ANALYTE_IDS, type AnalyteId, analyte, ORDINALS } from '@gapline/core/laboratory/analyte.ts';
import type { LabResult } from '@gapline/core/laboratory/lab-result.ts';
import { type FormEvent, useRef, useState } from 'react';
import { Remove } from './HistoryFacts.tsx';
import { DayLine, Fold, Pick, TextLine } from './inputs.tsx';
import { ManyResults } from './ManyResults.tsx';
import { useReading } from './reading.tsx';
import { addTo, fieldOf, itemOf, newId, type Slot, useSlot } from './slot.ts';
import { TrendChart } from './TrendChart.tsx';
import { resultText, typedResult, unitsOf } from './typed-result.ts';

const AT = '/workUp/infection/labResults';
const ANALYTE_OPTIONS = ANALYTE_IDS.map((id) => [id, analyte(id).label] as const);
const METHODS = [
  ['laboratory', 'in the laboratory'],
  ['lateral-flow', 'lateral flow'],
] as const;

/** Every result with its day, value and unit; what is at fault is kept as entered and marked where it stands. */
export function LaboratoryFacts() {
  const list = useSlot<readonly LabResult[]>(AT);
  const { marked } = useReading().infection.observed.series;
  const all = (list.value ?? []).toSorted(
    (a, b) =>
      (a.takenOn ?? '').localeCompare(b.takenOn ?? '') ||
      ANALYTE_IDS.indexOf(a.analyte) - ANALYTE_IDS.indexOf(b.analyte),
  );
  const faults = marked.length === 0 ? '' : `, ${marked.length} to mend`;
  return (
    <Fold title="Laboratory" said={all.length === 0 ? 'no result yet' : `${all.length} results${faults}`} open>
      {all.length > 0 && (
        <table className="lab-table">
          <thead>
            <tr>
              <th scope="col">Day</th>
              <th scope="col">Test</th>
              <th scope="col">Value</th>
              <th scope="col">Unit</th>
              <th scope="col">
                <span className="unseen">Take away</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {all.map((result) => (
              <ResultRow key={result.id} slot={itemOf(list, result.id)} />
            ))}
          </tbody>
        </table>
      )}
      <AddResult list={list} />
      <ManyResults list={list} />
      <Corrected />
      <TrendChart />
      <UnitLists />
    </Fold>
  );
}

function ResultRow({ slot }: { readonly slot: Slot<LabResult> }) {
  const { series } = useReading().infection.observed;
  const result = slot.value;
  if (!result) return null;
  const fault = series.marked.find((m) => m.entered.id === result.id)?.reason;
  const at = fault?.field?.split('.').at(-1);
  const words = fault && `${fault.message} ${fault.mend ?? ''}`.trim();
  const reading = series.readings.get(result.analyte)?.find((r) => r.id === result.id);
  const name = analyte(result.analyte).label;
  const warning = series.warnings.find((w) => w.field?.includes(`[${result.id}]`) && w.code !== 'no-date');
  return (
    <>
      <tr className={fault ? 'is-at-fault' : undefined}>
        <td>
          <DayLine
            label={`Day of ${name}`}
            quiet
            slot={fieldOf(slot, 'takenOn')}
            fault={at === 'takenOn' ? words : null}
          />
        </td>
        <td>
          <Pick label="Test" quiet none={null} options={ANALYTE_OPTIONS} slot={fieldOf(slot, 'analyte')} />
          {result.analyte === 'alpha-defensin' && (
            <Pick label="Method" quiet none="method not known" options={METHODS} slot={fieldOf(slot, 'method')} />
          )}
          {(result.sample !== undefined || fault?.code === 'two-values-for-one-sample') && (
            <TextLine label="Name of the sample" slot={fieldOf(slot, 'sample')} />
          )}
        </td>
        <td>
          <TextLine label={`Value of ${name}`} quiet slot={valueLine(slot)} fault={at === 'value' ? words : null} />
          {reading?.conversion && <small className="said-line">= {reading.conversion.split(' = ').at(-1)}</small>}
          {warning && <small className="caution-line">{warning.message}</small>}
        </td>
        <td>
          <TextLine
            label={`Unit of ${name}`}
            quiet
            list={`units-${result.analyte}`}
            slot={fieldOf(slot, 'unit')}
            fault={at === 'unit' ? words : null}
          />
        </td>
        <td>
          <Remove
            what={`${name}${result.takenOn ? ` of ${result.takenOn}` : ''}`}
            onRemove={() => slot.set(undefined)}
          />
        </td>
      </tr>
      {words && (
        <tr className="fault-row">
          <td colSpan={5}>{words}</td>
        </tr>
      )}
    </>
  );
}

/** The value as one text with its comparator; a unit typed with it goes where it belongs. */
function valueLine(slot: Slot<LabResult>): Slot<string> {
  const result = slot.value;
  return {
    value: result && resultText(result),
    set: (text, how) => {
      if (!result || text === undefined) return 'A result needs a value; the cross takes it away.';
      const { comparator: _, ...rest } = result;
      return slot.set({ ...rest, ...typedResult(text) }, how);
    },
  };
}

/** Test, value, unit, day, Enter: the next one begins with the same day. */
function AddResult({ list }: { readonly list: Slot<readonly LabResult[]> }) {
  const [test, setTest] = useState<AnalyteId | ''>('');
  const [value, setValue] = useState('');
  const [unit, setUnit] = useState('');
  const [day, setDay] = useState('');
  const [fault, setFault] = useState<string | null>(null);
  const first = useRef<HTMLSelectElement>(null);
  const words = test !== '' ? analyte(test).words : undefined;
  const choose = (id: AnalyteId | ''): void => {
    setTest(id);
    // The unit of the last result of the same test is offered, in sight and to be changed; never one that was not given.
    setUnit((list.value ?? []).findLast((r) => r.analyte === id)?.unit ?? '');
  };
  const add = (event: FormEvent): void => {
    event.preventDefault();
    if (test === '' || value.trim() === '') {
      setFault('Choose a test and give its value.');
      return;
    }
    const result: LabResult = {
      id: newId(),
      analyte: test,
      ...(unit.trim() === '' ? {} : { unit: unit.trim() }),
      ...typedResult(value),
      ...(day.trim() === '' ? {} : { takenOn: day.trim() }),
    };
    setFault(addTo(list, result));
    setValue('');
    setTest('');
    setUnit('');
    first.current?.focus();
  };
  return (
    <form className="add-result" onSubmit={add} aria-label="Add a result">
      <label>
        <span>Test</span>
        <select ref={first} value={test} onChange={(event) => choose(event.target.value as AnalyteId | '')}>
          <option value="">choose</option>
          {ANALYTE_OPTIONS.map(([id, label]) => (
            <option key={id} value={id}>
              {label}
            </option>
          ))}
        </select>
      </label>
      <label>
        <span>Value</span>
        <input
          type="text"
          autoComplete="off"
          value={value}
          placeholder={words ? ORDINALS[words].join(', ') : '12 or < 5'}
          onChange={(event) => setValue(event.target.value)}
        />
      </label>
      <label>
        <span>Unit</span>
        <input
          type="text"
          autoComplete="off"
          value={unit}
          list={test === '' ? undefined : `units-${test}`}
          onChange={(event) => setUnit(event.target.value)}
        />
      </label>
      <label>
        <span>Day</span>
        <input
          type="text"
          autoComplete="off"
          value={day}
          placeholder="YYYY-MM-DD"
          onChange={(event) => setDay(event.target.value)}
        />
      </label>
      <button type="submit">Add</button>
      {fault && (
        <small className="field-fault" role="alert">
          {fault}
        </small>
      )}
    </form>
  );
}

/** Units that each test knows, to choose from while typing. */
function UnitLists() {
  return ANALYTE_IDS.map((id) => (
    <datalist key={id} id={`units-${id}`}>
      {unitsOf(id).map((unit) => (
        <option key={unit} value={unit} />
      ))}
    </datalist>
  ));
}

/** Blood-stained counts: raw and corrected side by side. */
function Corrected() {
  const corrected = useReading().infection.observed.lab.find((a) => a.corrected !== null)?.corrected;
  if (!corrected) return null;
  const count = (n: number): string => Math.round(n).toLocaleString('en-US');
  return (
    <p className="corrected">
      Corrected for blood: white cells in the aspirate <strong>{count(corrected.wbc)}</strong> /uL (raw{' '}
      {count(corrected.rawWbc)})
      {corrected.pmnPercent !== null && (
        <>
          , polymorphonuclear <strong>{corrected.pmnPercent.toFixed(0)} %</strong> (raw{' '}
          {corrected.rawPmnPercent?.toFixed(0)} %)
        </>
      )}
      . The corrected counts are compared with the limits.
    </p>
  );
}
