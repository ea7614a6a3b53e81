import type { StockItem } from '@gapline/core/kit/set-list.ts';
import { counted } from '@gapline/core/plan/told/shares.ts';
import { type DragEvent, useId, useState } from 'react';
import { useSession } from '../../case/desk.tsx';
import { faultText } from '../../parts/fault-text.ts';
import { instant } from '../../parts/words.ts';
import { Fold } from '../../work-up/inputs.tsx';
import { today } from '../../work-up/reading.tsx';
import { useRoom, useSurprise } from '../forecast/forecasting-context.tsx';
import { sendStock } from '../wire.ts';

/** Stock of the hospital: pasted or dropped as CSV, lots and days of expiry, those that are past told first. */
export function StockBox() {
  const stock = useRoom((s) => s.stock);
  const surgeryOn = useSession((s) => s.shown.kit?.surgeryOn);
  const day = surgeryOn ?? today();
  const expired = (stock?.items ?? []).filter((item) => item.expires < day);
  const said = stock
    ? `${counted(stock.items.length, 'lot')}${expired.length > 0 ? `, ${expired.length} expired` : ''}`
    : 'none imported: sets count as whole';
  return (
    <Fold title="Stock" said={said}>
      {stock && (
        <p className="said-line">
          From <strong>{stock.from}</strong>, taken over {instant(stock.importedAt)}.
        </p>
      )}
      {expired.length > 0 && <Expired items={expired} day={day} isSurgery={surgeryOn !== undefined} />}
      <StockImport />
    </Fold>
  );
}

function Expired(props: { readonly items: readonly StockItem[]; readonly day: string; readonly isSurgery: boolean }) {
  const byDay = props.items.toSorted((a, b) => a.expires.localeCompare(b.expires) || (a.lot < b.lot ? -1 : 1));
  return (
    <div className="warning">
      <p>
        Expired {props.isSurgery ? 'before the day of surgery' : 'today'}, {props.day}: counted as not there.
      </p>
      <ul className="expired">
        {byDay.map((item) => (
          <li key={`${item.ref} ${item.lot}`}>
            {item.ref}, lot {item.lot}, {item.expires}
            {item.set && ` (in ${item.set})`}
          </li>
        ))}
      </ul>
    </div>
  );
}

/** A stock that is refused changes nothing; the fault names line and field. */
function StockImport() {
  const { room } = useSurprise();
  const [text, setText] = useState('');
  const [over, setOver] = useState(false);
  const [fault, setFault] = useState<string | null>(null);
  const id = useId();
  const take = (name: string, csv: string): void => {
    setFault(null);
    sendStock({ name, csv })
      .then((stock) => {
        room.took({ stock });
        setText('');
      })
      .catch((reason: unknown) => setFault(faultText(reason)));
  };
  const takeFile = (file: File): void => void file.text().then((csv) => take(file.name, csv));
  const onDrop = (event: DragEvent): void => {
    event.preventDefault();
    setOver(false);
    const [file] = event.dataTransfer.files;
    if (file) takeFile(file);
  };
  return (
    <fieldset
      className={`stock-drop${over ? ' is-over' : ''}`}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={onDrop}
    >
      <legend className="unseen">Take over a stock list</legend>
      <label htmlFor={id}>Stock list as CSV: paste, drop a file here, or choose one</label>
      <textarea id={id} rows={3} value={text} spellCheck={false} onChange={(event) => setText(event.target.value)} />
      <div className="buttons">
        <button type="button" disabled={text.trim() === ''} onClick={() => take('pasted', text)}>
          Take over
        </button>
        <label className="button">
          Choose file
          <input
            type="file"
            accept=".csv,text/csv"
            className="unseen"
            onChange={(event) => {
              const [file] = event.target.files ?? [];
              if (file) takeFile(file);
              event.target.value = '';
            }}
          />
        </label>
      </div>
      {fault && (
        <p className="fault" role="alert">
          {fault}
        </p>
      )}
    </fieldset>
  );
}
