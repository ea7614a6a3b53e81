import type { FixationInPlace, RemovalEstimate } from '@gapline/core/bone/bone-map.ts';
import { type RemovalSurface, removalEstimate } from '@gapline/core/bone/removal-loss.ts';
import { useState } from 'react';
import { number } from '../../parts/words.ts';
import { Fold, NumberLine } from '../../work-up/inputs.tsx';
import { type How, type Slot, useSlot } from '../../work-up/slot.ts';
import { openSection } from '../SurpriseSection.tsx';

const SURFACES: readonly (readonly [RemovalSurface, string])[] = [
  ['femur-distal', 'Femur, distal'],
  ['femur-posterior', 'Femur, posterior'],
  ['tibia', 'Tibia'],
];
const COLUMNS = [
  ['leastMm', 'least'],
  ['likelyMm', 'most likely'],
  ['mostMm', 'most'],
] as const;

/** What removal may take besides, by how the present parts are held. The numbers are the practice's own estimate. */
export function LossAtRemoval() {
  const femur = useSlot<FixationInPlace>('/bone/femurFixation');
  const tibia = useSlot<FixationInPlace>('/bone/tibiaFixation');
  const own = useSlot<readonly RemovalEstimate[]>('/bone/removalEstimates');
  const known = [femur.value, tibia.value].filter((f) => f !== undefined).length;
  const owns = (own.value ?? []).length > 0;
  const said =
    known < 2 ? 'fixation in place not known' : owns ? 'as the practice estimates' : 'defaults, not confirmed yet';
  // Open at the start where something is asked for; afterwards it stays as the hand leaves it.
  const [asks] = useState(known < 2);
  return (
    <Fold title="Loss at removal" said={said} open={asks}>
      <table className="removal">
        <caption className="said-line">
          Further loss at removal, mm. <strong>The practice's own estimate</strong>: no table is published.
        </caption>
        <thead>
          <tr>
            <th scope="col">Surface</th>
            {COLUMNS.map(([key, words]) => (
              <th key={key} scope="col">
                {words}
              </th>
            ))}
            <th scope="col">from</th>
          </tr>
        </thead>
        <tbody>
          {SURFACES.map(([surface, words]) => {
            const fixation = surface === 'tibia' ? tibia.value : femur.value;
            return fixation === undefined ? (
              <tr key={surface}>
                <th scope="row">{words}</th>
                <td colSpan={4} className="said-line">
                  <button type="button" className="as-link" onClick={() => openSection('bone-stock')}>
                    State how the {surface === 'tibia' ? 'tibial' : 'femoral'} component is held
                  </button>
                </td>
              </tr>
            ) : (
              <LossRow key={`${surface} ${fixation}`} at={{ surface, fixation }} words={words} own={own} />
            );
          })}
        </tbody>
      </table>
    </Fold>
  );
}

interface Place {
  readonly surface: RemovalSurface;
  readonly fixation: FixationInPlace;
}

function LossRow({
  at,
  words,
  own,
}: {
  readonly at: Place;
  readonly words: string;
  readonly own: Slot<readonly RemovalEstimate[]>;
}) {
  const estimate = removalEstimate(at.fixation, at.surface, own.value ?? []);
  const others = (own.value ?? []).filter((e) => e.fixation !== at.fixation || e.surface !== at.surface);
  const change = (key: (typeof COLUMNS)[number][0], next: number | undefined, how?: How): string | null => {
    if (next === undefined) return 'A number is wanted; “Back to default” takes the own estimate away.';
    const { leastMm, likelyMm, mostMm, classWorse } = estimate;
    const numbers = { leastMm, likelyMm, mostMm };
    numbers[key] = next;
    if (!(0 <= numbers.leastMm && numbers.leastMm <= numbers.likelyMm && numbers.likelyMm <= numbers.mostMm))
      return 'Least, most likely and most must rise in this order.';
    const entry: RemovalEstimate = { ...at, ...numbers, ...(classWorse === undefined ? {} : { classWorse }) };
    return own.set([...others, entry], how);
  };
  return (
    <tr>
      <th scope="row">{words}</th>
      {COLUMNS.map(([key, column]) => (
        <td key={key}>
          <NumberLine
            label={`${words}, ${column}, mm`}
            quiet
            slot={{ value: estimate[key], set: (next, how) => change(key, next, how) }}
          />
        </td>
      ))}
      <td>
        {estimate.confirmed ? (
          <button
            type="button"
            className="as-link"
            onClick={() => own.set(others.length === 0 ? undefined : others)}
            title={`Default: ${triangle(removalEstimate(at.fixation, at.surface))}`}
          >
            Back to default
          </button>
        ) : (
          <small>default, not confirmed</small>
        )}
      </td>
    </tr>
  );
}

const triangle = ({ leastMm, likelyMm, mostMm }: RemovalEstimate): string =>
  `${number(leastMm)}, ${number(likelyMm)}, ${number(mostMm)} mm`;
