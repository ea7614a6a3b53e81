import { useId, useState } from 'react';
import { faultText } from '../parts/fault-text.ts';
import { CameraScan } from './CameraScan.tsx';
import { labelText, shownLabel, typesSeparator } from './label-text.ts';
import { type LabelRead, readLabel } from './wire.ts';

interface Props {
  readonly onLabel: (label: LabelRead) => void;
  /** What became of the last label. */
  readonly said: string | null;
}

/** Takes the text of a label: pasted, typed by a hand scanner that ends with Enter, or seen by the camera. */
export function LabelBox({ onLabel, said }: Props) {
  const [text, setText] = useState('');
  const [read, setRead] = useState<LabelRead | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [camera, setCamera] = useState(false);
  const id = useId();
  const take = async (raw: string): Promise<void> => {
    if (labelText(raw) === '') return;
    setFault(null);
    try {
      const label = await readLabel(labelText(raw));
      setRead(label);
      setText('');
      onLabel(label);
    } catch (reason) {
      setRead(null);
      setFault(faultText(reason));
    }
  };
  return (
    <div className="label-box">
      <label htmlFor={id}>Implant label: scan or paste, then Enter</label>
      <div className="label-line">
        <input
          id={id}
          type="text"
          value={text}
          autoComplete="off"
          spellCheck={false}
          aria-invalid={fault !== null}
          aria-describedby={`${id}-said`}
          onChange={(event) => setText(shownLabel(event.target.value))}
          onKeyDown={(event) => {
            if (event.key === 'Enter') {
              event.preventDefault();
              void take(event.currentTarget.value);
            } else if (typesSeparator(event)) {
              event.preventDefault();
              setText(shownLabel(`${text}\u001d`));
            }
          }}
        />
        <button type="button" aria-expanded={camera} onClick={() => setCamera(!camera)}>
          {camera ? 'Close camera' : 'Camera'}
        </button>
      </div>
      {camera && (
        <CameraScan
          onText={(seen) => {
            setCamera(false);
            setText(shownLabel(seen));
            void take(seen);
          }}
        />
      )}
      <div id={`${id}-said`} role="status">
        {fault && <p className="field-fault">{fault}</p>}
        {read && <LabelFacts read={read} said={said} />}
      </div>
    </div>
  );
}

function LabelFacts({ read, said }: { readonly read: LabelRead; readonly said: string | null }) {
  return (
    <p className="label-facts">
      {said} {read.carrier === 'gs1' ? 'GS1' : 'HIBC'} label, check digit verified.
      {read.device && ` Device ${read.device}.`}
      {read.lot && ` Lot ${read.lot}.`}
      {read.serial && ` Serial ${read.serial}.`}
      {read.expires && ` Expiry ${read.expires}.`}
      {read.others.map((o) => ` (${o.code}) ${o.value}.`).join('')}
      {read.warnings.map((w) => (
        <span key={w} className="caution-line">
          {' '}
          {w}
        </span>
      ))}
    </p>
  );
}
