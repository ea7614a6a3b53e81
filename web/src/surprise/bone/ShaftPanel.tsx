import { type DiaphysisMap, WEAK_SPOTS, type WeakSpot } from '@gapline/core/bone/bone-map.ts';
import { useState } from 'react';
import { NumberLine, Pick } from '../../work-up/inputs.tsx';
import { fieldOf, type Slot, useSlot } from '../../work-up/slot.ts';

const SPOT_WORDS: Readonly<Record<WeakSpot['kind'], string>> = {
  window: 'window',
  osteotomy: 'osteotomy',
  perforation: 'perforation',
  fracture: 'fracture',
  'screw-holes': 'screw holes',
};

/** The shaft: its width, other metal in it, and the places that a stem must pass. */
export function ShaftPanel({ at }: { readonly at: string }) {
  const whole = useSlot<DiaphysisMap>(at);
  const spots = useSlot<readonly WeakSpot[]>(`${at}/weakSpots`);
  // A spot that is being added is none yet: it becomes one with its far end, which nobody may invent.
  const [adding, setAdding] = useState<WeakSpot['kind'] | null>(null);
  const all = spots.value ?? [];
  return (
    <>
      <div className="region-rest">
        <NumberLine label="Outer diameter" unit="mm" placeholder="not known" slot={fieldOf(whole, 'outerDiameterMm')} />
        <NumberLine
          label="Other metal begins"
          unit="mm"
          placeholder="none known"
          hint="from the target joint line: a hip stem, a plate"
          slot={fieldOf(whole, 'otherMetalMm')}
        />
      </div>
      {[...all.entries()].map(([place, spot]) => (
        <SpotRow
          key={place}
          name={`Weak spot ${place + 1}`}
          kind={{
            value: spot.kind,
            set: (kind) => spots.set(all.with(place, { ...spot, kind: kind ?? spot.kind })),
          }}
          farEnd={{
            value: spot.farEndMm,
            set: (next, how) =>
              next === undefined ? NEEDS_FAR_END : spots.set(all.with(place, { ...spot, farEndMm: next }), how),
          }}
          onRemove={() => spots.set(all.length > 1 ? all.toSpliced(place, 1) : undefined)}
        />
      ))}
      {adding && (
        <SpotRow
          name="New weak spot"
          kind={{
            value: adding,
            set: (kind) => {
              setAdding(kind ?? adding);
              return null;
            },
          }}
          farEnd={{
            value: undefined,
            set: (next, how) => {
              if (next === undefined) return NEEDS_FAR_END;
              if (how === 'draft') return null;
              const fault = spots.set([...all, { kind: adding, farEndMm: next }]);
              if (fault === null) setAdding(null);
              return fault;
            },
          }}
          onRemove={() => setAdding(null)}
        />
      )}
      <div className="buttons">
        {!adding && (
          <button type="button" onClick={() => setAdding('screw-holes')}>
            Add a weak spot
          </button>
        )}
        {spots.value === undefined && !adding && (
          <button type="button" onClick={() => spots.set([])}>
            No weak spot
          </button>
        )}
      </div>
    </>
  );
}

const NEEDS_FAR_END = 'A weak spot needs its far end.';

interface SpotProps {
  readonly name: string;
  readonly kind: Slot<WeakSpot['kind']>;
  readonly farEnd: Slot<number>;
  readonly onRemove: () => void;
}

function SpotRow({ name, kind, farEnd, onRemove }: SpotProps) {
  return (
    <div className="row is-spot">
      <Pick label={name} none={null} slot={kind} options={WEAK_SPOTS.map((k) => [k, SPOT_WORDS[k]])} />
      <NumberLine label="Far end from the joint line" unit="mm" placeholder="not known" slot={farEnd} />
      <button type="button" className="remove" aria-label={`Take away ${name.toLowerCase()}`} onClick={onRemove}>
        ×
      </button>
    </div>
  );
}
