import type { CultureSample, InfectionFindings, Organism } from '@gapline/core/infection/findings.ts';
import { Remove } from './HistoryFacts.tsx';
import { DayLine, Fold, NumberLine, Pick, TextLine } from './inputs.tsx';
import { useReading, useRecord } from './reading.tsx';
import { addTo, fieldOf, itemOf, newId, type Slot, useSlot } from './slot.ts';
import { Tri } from './Tri.tsx';

const AT = '/workUp/infection';

const TAPS = [
  ['fluid', 'fluid obtained'],
  ['dry', 'dry'],
  ['lavage', 'washed out with saline'],
] as const;
const HISTOLOGY = [
  ['negative', 'negative'],
  ['five-in-one-field', '5 or more in one field'],
  ['five-in-five-fields', '5 or more in five fields'],
  ['organisms-seen', 'organisms seen'],
] as const;
const SCAN = [
  ['negative', 'negative'],
  ['positive', 'positive'],
] as const;
const FROM = [
  ['aspirate', 'aspirate'],
  ['tissue', 'tissue at operation'],
  ['sonication', 'sonication'],
] as const;
const GROWTH = [
  ['none', 'no growth'],
  ['growth', 'growth'],
  ['pending', 'not read yet'],
] as const;
const KINDS = [
  ['virulent', 'virulent'],
  ['common-contaminant', 'often a contaminant'],
  ['unknown', 'not judged'],
] as const;

type One<K extends keyof InfectionFindings> = NonNullable<InfectionFindings[K]>;

/** What is seen, when the joint was last opened, and what imaging says. */
export function SignFacts() {
  const faults = useReading().infection.observed.faults;
  const at = (field: string): string | null => {
    const fault = faults.find((f) => f.field === field);
    return fault ? `${fault.message} ${fault.mend ?? ''}`.trim() : null;
  };
  return (
    <Fold title="Signs of infection" open>
      <div className="pairs">
        <DayLine
          label="Last operation on this joint"
          slot={useSlot(`${AT}/lastOperationOn`)}
          fault={at('lastOperationOn')}
        />
        <DayLine label="Implanted" slot={useSlot(`${AT}/implantedOn`)} fault={at('implantedOn')} />
      </div>
      <div className="tri-list">
        <Tri label="Sinus tract to the joint, or prosthesis seen" at={`${AT}/sinus`} />
        <Tri label="Earlier trouble with wound healing" at={`${AT}/woundHealingProblem`} />
        <Tri label="Recent fever or bacteraemia" at={`${AT}/feverOrBacteraemia`} />
        <Tri label="Pain" at={`${AT}/localSigns/pain`} />
        <Tri label="Swelling" at={`${AT}/localSigns/swelling`} />
        <Tri label="Redness" at={`${AT}/localSigns/redness`} />
        <Tri label="Warmth" at={`${AT}/localSigns/warmth`} />
        <Tri label="Loss of function" at={`${AT}/localSigns/loss-of-function`} />
        <Tri label="Another cause explains the symptoms" at={`${AT}/otherCause`} />
        <Tri label="Loosening on film" at={`${AT}/loosening`} />
      </div>
      <div className="pairs">
        <DayLine label="Loosening first seen" slot={useSlot(`${AT}/looseningSeenOn`)} fault={at('looseningSeenOn')} />
        <Pick label="White-cell scan" options={SCAN} slot={useSlot<One<'leukocyteScan'>>(`${AT}/leukocyteScan`)} />
        <Pick
          label="White-cell with marrow scan"
          options={SCAN}
          slot={useSlot<One<'leukocyteMarrowScan'>>(`${AT}/leukocyteMarrowScan`)}
        />
        <Pick label="Bone scan, three phases" options={SCAN} slot={useSlot<One<'boneScan'>>(`${AT}/boneScan`)} />
        <DayLine
          label="Day of decision"
          hint="later results are not used"
          slot={useSlot(`${AT}/decisionOn`)}
          fault={at('decisionOn')}
        />
      </div>
    </Fold>
  );
}

/** The tap, what makes its results harder to trust, and the cultures. */
export function AspirateFacts() {
  const cultures = useSlot<readonly CultureSample[]>(`${AT}/cultures`);
  const all = cultures.value ?? [];
  const tap = useRecord().infection?.tap;
  const add = (from: CultureSample['from']): void => {
    addTo(cultures, { id: newId(), from, growth: 'pending' });
  };
  return (
    <Fold
      title="Aspirate and cultures"
      said={[tap, all.length ? `${all.length} samples` : null].filter(Boolean).join(', ')}
      open
    >
      <div className="pairs">
        <Pick label="Tap" options={TAPS} slot={useSlot<One<'tap'>>(`${AT}/tap`)} />
      </div>
      {all.map((sample, i) => (
        <CultureRow key={sample.id} number={i + 1} slot={itemOf(cultures, sample.id)} />
      ))}
      <div className="buttons">
        {FROM.map(([from, words]) => (
          <button key={from} type="button" onClick={() => add(from)}>
            Add {words}
          </button>
        ))}
      </div>
      <h4>At operation</h4>
      <div className="pairs">
        <Pick label="Histology at x 400" options={HISTOLOGY} slot={useSlot<One<'histology'>>(`${AT}/histology`)} />
      </div>
      <div className="tri-list">
        <Tri label="Purulence around the prosthesis" at={`${AT}/purulence`} />
      </div>
    </Fold>
  );
}

function CultureRow({ number, slot }: { readonly number: number; readonly slot: Slot<CultureSample> }) {
  const faults = useReading().infection.observed.faults;
  const sample = slot.value;
  if (!sample) return null;
  const fault = faults.find((f) => f.field?.startsWith(`cultures[${sample.id}]`));
  const organisms = fieldOf(slot, 'organisms');
  const list = organisms.value ?? [];
  const put = (at: number, next: Organism | undefined): string | null =>
    organisms.set(next === undefined ? list.filter((_, i) => i !== at) : list.with(at, next));
  return (
    <fieldset className="culture">
      <legend className="unseen">Sample {number}</legend>
      <div className="row is-culture">
        <DayLine label="Day" quiet slot={fieldOf(slot, 'takenOn')} />
        <Pick label="From" quiet none={null} options={FROM} slot={fieldOf(slot, 'from')} />
        <Pick label="Growth" quiet none={null} options={GROWTH} slot={fieldOf(slot, 'growth')} />
        <Remove what={`sample ${number}`} onRemove={() => slot.set(undefined)} />
      </div>
      {sample.from === 'sonication' && <NumberLine label="Colonies" unit="CFU/mL" slot={fieldOf(slot, 'cfuPerMl')} />}
      {list
        .map((organism, place) => ({ organism, place }))
        .map(({ organism, place }) => {
          const one: Slot<Organism> = {
            value: organism,
            set: (next, how) => organisms.set(next === undefined ? list : list.with(place, next), how),
          };
          return (
            <div className="row is-organism" key={place}>
              <TextLine label="Organism" slot={fieldOf(one, 'name')} />
              <Pick label="Judged" none={null} options={KINDS} slot={fieldOf(one, 'kind')} />
              <Remove what={`organism ${organism.name}`} onRemove={() => put(place, undefined)} />
            </div>
          );
        })}
      {sample.growth === 'growth' && (
        <button
          type="button"
          className="as-link"
          onClick={() => organisms.set([...list, { name: '', kind: 'unknown' }])}
        >
          Name an organism
        </button>
      )}
      {fault && (
        <small className="field-fault">
          {fault.message} {fault.mend}
        </small>
      )}
    </fieldset>
  );
}

const CONTEXT = [
  ['spacerInPlace', 'Spacer in place'],
  ['antibioticsBeforeTap', 'Antibiotics within 14 days before the tap'],
  ['crystals', 'Crystals in the aspirate'],
  ['metalReaction', 'Adverse reaction to metal, metallosis'],
  ['inflammatoryDisease', 'Active inflammatory joint disease'],
  ['bloodStainedAspirate', 'Aspirate blood-stained'],
  ['slowOrganismSuspected', 'Slow organism suspected'],
  ['suddenOnset', 'Sudden onset in a joint that was well'],
  ['fracture', 'Fracture at the prosthesis'],
  ['haematoma', 'Haematoma'],
] as const;

/** What makes results harder to trust. It raises cautions and never changes a score. */
export function ContextFacts() {
  return (
    <Fold title="What may mislead">
      <div className="tri-list">
        {CONTEXT.map(([id, label]) => (
          <Tri key={id} label={label} at={`${AT}/context/${id}`} />
        ))}
      </div>
    </Fold>
  );
}
