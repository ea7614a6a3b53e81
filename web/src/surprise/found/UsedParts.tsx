import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { CONSTRAINT_LEVELS } from '@gapline/core/catalogue/catalogue.ts';
import type { Construct } from '@gapline/core/gaps/construct.ts';
import type { PartsUsed } from '@gapline/core/learning/found.ts';
import { usePlanning } from '../../case/desk.tsx';
import { LEVEL_WORDS } from '../../parts/words.ts';
import { Pick } from '../../work-up/inputs.tsx';
import { fieldOf, type How, type Slot, useSlot } from '../../work-up/slot.ts';
import { usedAsPlanned } from './as-planned.ts';

interface Named {
  readonly ref: string;
  readonly name: string;
}

/** What stands for "none was used" in a list; the case keeps null. */
const NONE = '';

/** The parts that were used: as planned at one press, each changed by a list of its own. */
export function UsedParts({ planned }: { readonly planned: Construct | null }) {
  const catalogue = usePlanning((s) => s.catalogue);
  const used = useSlot<PartsUsed>('/found/used');
  if (!catalogue) return <p className="said-line">Parts can be noted once a catalogue is chosen.</p>;
  const same = planned !== null && sameParts(used.value, usedAsPlanned(planned));
  return (
    <details>
      <summary>
        Parts used: {used.value === undefined ? 'not noted' : same ? 'as planned' : 'not all as planned'}
      </summary>
      {planned && !same && (
        <button type="button" onClick={() => used.set(usedAsPlanned(planned))}>
          As planned
        </button>
      )}
      <div className="pairs">
        <Pick
          label="Constraint"
          none="not noted"
          slot={fieldOf(used, 'level')}
          options={CONSTRAINT_LEVELS.map((level) => [level, LEVEL_WORDS[level]])}
        />
        <Part
          label="Femoral component"
          slot={fieldOf(used, 'femur')}
          of={[...catalogue.femurs, ...segments(catalogue, 'femur')]}
          must
        />
        <Part
          label="Tray"
          slot={fieldOf(used, 'tray')}
          of={[...catalogue.trays, ...segments(catalogue, 'tibia')]}
          must
        />
        <Part label="Insert" slot={fieldOf(used, 'insert')} of={catalogue.inserts} must />
        <Pair
          label="Distal augment"
          used={used}
          at="distalAugments"
          of={catalogue.femoralAugments.filter((a) => a.face === 'distal')}
        />
        <Pair
          label="Posterior augment"
          used={used}
          at="posteriorAugments"
          of={catalogue.femoralAugments.filter((a) => a.face === 'posterior')}
        />
        <Pair label="Tibial block" used={used} at="tibialAugments" of={catalogue.tibialAugments} />
        <Part
          label="Femoral stem"
          slot={orNone(used, 'femoralStem')}
          of={catalogue.stems.filter((s) => s.bone !== 'tibia')}
        />
        <Part
          label="Femoral offset"
          slot={orNone(used, 'femoralOffset')}
          of={catalogue.offsetCouplers.filter((o) => o.bone !== 'tibia')}
        />
        <Part
          label="Tibial stem"
          slot={orNone(used, 'tibialStem')}
          of={catalogue.stems.filter((s) => s.bone !== 'femur')}
        />
        <Part
          label="Tibial offset"
          slot={orNone(used, 'tibialOffset')}
          of={catalogue.offsetCouplers.filter((o) => o.bone !== 'femur')}
        />
        <Part
          label="Femoral cone"
          slot={orNone(used, 'femoralCone')}
          of={(catalogue.cones ?? []).filter((c) => c.bone === 'femur')}
        />
        <Part
          label="Tibial cone"
          slot={orNone(used, 'tibialCone')}
          of={(catalogue.cones ?? []).filter((c) => c.bone === 'tibia')}
        />
        <Part
          label="Femoral sleeve"
          slot={orNone(used, 'femoralSleeve')}
          of={(catalogue.sleeves ?? []).filter((c) => c.bone === 'femur')}
        />
        <Part
          label="Tibial sleeve"
          slot={orNone(used, 'tibialSleeve')}
          of={(catalogue.sleeves ?? []).filter((c) => c.bone === 'tibia')}
        />
      </div>
    </details>
  );
}

const segments = (catalogue: Catalogue, bone: 'femur' | 'tibia'): readonly Named[] =>
  (catalogue.segments ?? []).filter((s) => s.bone === bone);

/** Whether two lists of parts are the same, whatever the order in which they were noted. */
function sameParts(a: PartsUsed | undefined, b: PartsUsed): boolean {
  const flat = (used: PartsUsed): string =>
    Object.entries(used)
      .map(([key, value]) =>
        typeof value === 'object' && value !== null ? `${key} ${value.medial} ${value.lateral}` : `${key} ${value}`,
      )
      .toSorted()
      .join('\n');
  return a !== undefined && flat(a) === flat(b);
}

type MayBeNone =
  | 'femoralStem'
  | 'femoralOffset'
  | 'tibialStem'
  | 'tibialOffset'
  | 'femoralCone'
  | 'tibialCone'
  | 'femoralSleeve'
  | 'tibialSleeve';

/** A field whose null means that none was used, as a list that has "none" in it. */
const orNone = (used: Slot<PartsUsed>, key: MayBeNone): Slot<string> => ({
  value: used.value?.[key] === null ? NONE : (used.value?.[key] ?? undefined),
  set: (next, how?: How) => {
    const { [key]: _, ...rest } = used.value ?? {};
    return used.set(next === undefined ? rest : { ...rest, [key]: next === NONE ? null : next }, how);
  },
});

function Part(props: {
  readonly label: string;
  readonly slot: Slot<string>;
  readonly of: readonly Named[];
  /** A knee has one in any case: "none" is not offered. */
  readonly must?: boolean;
}) {
  const { label, slot, of, must = false } = props;
  return (
    <label className="line-field">
      <span>{label}</span>
      <select
        value={slot.value === undefined ? 'not-noted' : slot.value}
        onChange={(event) => slot.set(event.target.value === 'not-noted' ? undefined : event.target.value)}
      >
        <option value="not-noted">not noted</option>
        {!must && <option value={NONE}>none</option>}
        {of.map((part) => (
          <option key={part.ref} value={part.ref}>
            {part.name}
          </option>
        ))}
      </select>
    </label>
  );
}

type PairName = 'distalAugments' | 'posteriorAugments' | 'tibialAugments';

/** Both sides of one face; what is not noted on the other side counts as none once one side is. */
function Pair(props: {
  readonly label: string;
  readonly used: Slot<PartsUsed>;
  readonly at: PairName;
  readonly of: readonly Named[];
}) {
  const { label, used, at, of } = props;
  const pair = used.value?.[at];
  const slot = (side: 'medial' | 'lateral'): Slot<string> => ({
    value: pair === undefined ? undefined : (pair[side] ?? NONE),
    set: (next, how) => {
      const { [at]: _, ...rest } = used.value ?? {};
      if (next === undefined) return used.set(rest, how);
      const both = {
        medial: pair?.medial ?? null,
        lateral: pair?.lateral ?? null,
        [side]: next === NONE ? null : next,
      };
      return used.set({ ...rest, [at]: both }, how);
    },
  });
  return (
    <>
      <Part label={`${label}, medial`} slot={slot('medial')} of={of} />
      <Part label={`${label}, lateral`} slot={slot('lateral')} of={of} />
    </>
  );
}
