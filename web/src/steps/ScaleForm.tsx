import type { CaseFilm, ChosenScale } from '@gapline/core/plan/case.ts';
import { useState } from 'react';
import { useDesk } from '../case/desk.tsx';
import { Choice } from '../parts/fields.tsx';

type Kind = ChosenScale['kind'] | 'file';

const KINDS: readonly (readonly [Kind, string])[] = [
  ['file', 'What the file says'],
  ['known-implant', 'Known implant width'],
  ['ball', 'Calibration ball'],
  ['magnification', 'Stated magnification'],
  ['distances', 'Distances of the exposure'],
  ['stated-spacing', 'Stated pixel size'],
];

interface Amount {
  readonly key: string;
  readonly label: string;
  readonly unit: string;
}

/** What a person must state for each source of scale. */
const AMOUNTS: Readonly<Record<Kind, readonly Amount[]>> = {
  file: [],
  'known-implant': [{ key: 'widthMm', label: 'True width', unit: 'mm' }],
  ball: [{ key: 'diameterMm', label: 'True diameter', unit: 'mm' }],
  magnification: [{ key: 'factor', label: 'Magnification factor', unit: '×' }],
  distances: [
    { key: 'sourceToDetectorMm', label: 'Source to detector', unit: 'mm' },
    { key: 'sourceToKneeMm', label: 'Source to knee', unit: 'mm' },
  ],
  'stated-spacing': [{ key: 'mmPerPx', label: 'Millimetres in the knee for one pixel', unit: 'mm' }],
};

const NOTES: Readonly<Record<Kind, string>> = {
  file: 'The decision table over the tags of the file. Its uncertainty is shown with it.',
  'known-implant': 'Mark both edges of the part on this film; the best scale there is, at the implant itself.',
  ball: 'Mark three or more points on the outline of the ball. It holds at the depth of the ball.',
  magnification: 'As stated by the department, with who states it.',
  distances: 'Magnification from source to detector over source to knee.',
  'stated-spacing': 'For pictures without a scale of their own; the least trusted.',
};

/** Where the millimetres of this film come from, by a person's choice. */
export function ScaleForm({ film }: { readonly film: CaseFilm }) {
  const { session } = useDesk();
  const chosen = film.scale;
  const [kind, setKind] = useState<Kind>(chosen?.kind ?? 'file');
  const [values, setValues] = useState<Readonly<Record<string, string>>>(textsOf(chosen));
  const [fault, setFault] = useState<string | null>(null);
  const side = film.side === 'both' ? session.store.getState().shown.side : film.side;
  const use = () => {
    const { scale: _, ...rest } = film;
    if (kind === 'file') return session.commit([{ kind: 'put-film', film: rest }], `${film.file}: scale from the file`);
    const scale = scaleFrom(kind, values, side);
    if (typeof scale === 'string') return setFault(scale);
    setFault(null);
    session.commit([{ kind: 'put-film', film: { ...rest, scale } }], `${film.file}: scale chosen`);
  };
  const needsSource = kind === 'magnification' || kind === 'distances' || kind === 'stated-spacing';
  return (
    <form
      className="scale-form"
      onSubmit={(event) => {
        event.preventDefault();
        use();
      }}
    >
      <Choice
        label="Scale"
        options={KINDS}
        value={kind}
        hint={NOTES[kind]}
        onChoose={(next) => {
          setKind(next as Kind);
          setFault(null);
        }}
      />
      {kind === 'known-implant' && (
        <Choice
          label="Part"
          options={[
            ['tray', 'Tray'],
            ['femoral-component', 'Femoral component'],
          ]}
          value={values.part ?? 'tray'}
          onChoose={(part) => setValues({ ...values, part })}
        />
      )}
      {AMOUNTS[kind].map((amount) => (
        <label key={amount.key} className="field is-number">
          <span>{amount.label}</span>
          <span className="field-box">
            <input
              type="text"
              inputMode="decimal"
              value={values[amount.key] ?? ''}
              onChange={(event) => setValues({ ...values, [amount.key]: event.target.value })}
            />
            <span className="unit">{amount.unit}</span>
          </span>
        </label>
      ))}
      {needsSource && (
        <label className="field">
          <span>Stated by</span>
          <input
            type="text"
            value={values.from ?? ''}
            onChange={(event) => setValues({ ...values, from: event.target.value })}
          />
        </label>
      )}
      {fault && <small className="field-fault">{fault}</small>}
      <button type="submit">Use this scale</button>
    </form>
  );
}

const textsOf = (scale: ChosenScale | undefined): Readonly<Record<string, string>> =>
  Object.fromEntries(Object.entries(scale ?? {}).map(([key, value]) => [key, String(value)]));

/** The scale that was typed, or what is wrong with it. */
function scaleFrom(
  kind: ChosenScale['kind'],
  values: Readonly<Record<string, string>>,
  side: 'right' | 'left',
): ChosenScale | string {
  const amounts = new Map<string, number>();
  for (const { key, label } of AMOUNTS[kind]) {
    const typed = Number((values[key] ?? '').replace(',', '.'));
    if (!(typed > 0) || !Number.isFinite(typed)) return `${label}: give a number above zero.`;
    amounts.set(key, typed);
  }
  const amount = (key: string): number => amounts.get(key) ?? 0;
  const from = (values.from ?? '').trim();
  if (kind === 'known-implant') {
    return {
      kind,
      part: values.part === 'femoral-component' ? 'femoral-component' : 'tray',
      side,
      widthMm: amount('widthMm'),
    };
  }
  if (kind === 'ball') return { kind, diameterMm: amount('diameterMm') };
  if (from === '') return 'Say who or what states it.';
  if (kind === 'magnification') return { kind, factor: amount('factor'), from };
  if (kind === 'stated-spacing') return { kind, mmPerPx: amount('mmPerPx'), from };
  return { kind, sourceToDetectorMm: amount('sourceToDetectorMm'), sourceToKneeMm: amount('sourceToKneeMm'), from };
}
