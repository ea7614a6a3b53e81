import {
  type Attachment,
  type DrawnDefect,
  FLARES,
  type Flare,
  type MetaphysisMap,
  type SurfaceLoss,
} from '@gapline/core/bone/bone-map.ts';
import { NumberLine } from '../../work-up/inputs.tsx';
import { fieldOf, type Slot, useSlot } from '../../work-up/slot.ts';
import { Three } from '../../work-up/Tri.tsx';
import { type BoneName, REGIONS, type RegionId } from './bone-drawing.ts';
import { DrawButton } from './DrawButton.tsx';
import { ShaftPanel } from './ShaftPanel.tsx';
import { Taps } from './Taps.tsx';

const DEPTHS = [0, 2, 5, 8, 10, 15, 20];
const SHARES = [0, 20, 40, 60, 80, 100];

/** What is known of the region that is chosen, to be entered by presses. */
export function RegionPanel({ bone, region }: { readonly bone: BoneName; readonly region: RegionId }) {
  const found = REGIONS[bone].find((r) => r.id === region);
  if (!found) return null;
  const at = `/bone/${bone}Map/${found.at}`;
  return (
    <fieldset className="region-panel">
      <legend>
        {bone === 'femur' ? 'Femur' : 'Tibia'}: {found.label.toLowerCase()}
      </legend>
      {found.is === 'surface' && <SurfacePanel key={at} at={at} bone={bone} region={region} />}
      {found.is === 'metaphysis' && <MetaphysisPanel key={at} at={at} bone={bone} />}
      {found.is === 'shaft' && <ShaftPanel key={at} at={at} />}
    </fieldset>
  );
}

const RIM = { yes: ['intact', 'intact'], no: ['lost', 'lost'] } as const;
const HELD = { yes: ['held', 'held'], no: ['lost', 'lost'] } as const;
const YES_NO = { yes: ['yes', 'yes'], no: ['no', 'no'] } as const;

/** A truth of the case as the answer of a three-way line. */
const asAnswer = (slot: Slot<boolean>): Slot<'yes' | 'no' | 'unknown'> => ({
  value: slot.value === undefined ? undefined : slot.value ? 'yes' : 'no',
  set: (next, how) => slot.set(next === 'yes' ? true : next === 'no' ? false : undefined, how),
});
const orUnknown = <V extends string>(slot: Slot<V>): Slot<V | 'unknown'> => ({
  value: slot.value,
  set: (next, how) => slot.set(next === 'unknown' ? undefined : (next as V | undefined), how),
});

function SurfacePanel({
  at,
  bone,
  region,
}: {
  readonly at: string;
  readonly bone: BoneName;
  readonly region: RegionId;
}) {
  const depth = useSlot<number>(`${at}/depthMm`);
  const spread = useSlot<number>(`${at}/depthSdMm`);
  const share = useSlot<number>(`${at}/unsupportedPct`);
  const rim = useSlot<NonNullable<SurfaceLoss['rim']>>(`${at}/rim`);
  const contained = useSlot<boolean>(`${at}/contained`);
  return (
    <>
      <Taps label="Depth" unit="mm" values={DEPTHS} slot={depth} />
      <Taps label="Without support" unit="%" values={SHARES} slot={share} />
      <div className="region-rest">
        <NumberLine
          label="Spread of the depth"
          unit="mm"
          slot={spread}
          placeholder="not known"
          hint={
            spread.value === undefined && depth.value !== undefined
              ? 'wanted before a forecast; never taken as zero'
              : undefined
          }
        />
        <Three label="Rim" slot={orUnknown(rim)} words={RIM} />
        <Three label="Contained" slot={asAnswer(contained)} words={YES_NO} />
      </div>
      <DrawButton surface={drawnSurface(bone, region)} compartment={sideOf(region)} />
    </>
  );
}

const drawnSurface = (bone: BoneName, region: RegionId): DrawnDefect['surface'] =>
  bone === 'tibia'
    ? 'tibia-plateau'
    : region === 'anterior'
      ? 'femur-anterior'
      : region.startsWith('distal')
        ? 'femur-distal'
        : 'femur-posterior';
const sideOf = (region: RegionId): DrawnDefect['compartment'] =>
  region.endsWith('medial') ? 'medial' : region.endsWith('lateral') ? 'lateral' : 'both';

const FLARE_WORDS: Readonly<Record<Flare, string>> = {
  intact: 'intact',
  'short-medial': 'short medially',
  'short-lateral': 'short laterally',
  'short-both': 'short on both sides',
  absent: 'gone',
};

function MetaphysisPanel({ at, bone }: { readonly at: string; readonly bone: BoneName }) {
  const whole = useSlot<MetaphysisMap>(at);
  const flare = fieldOf(whole, 'flare');
  const line = (key: keyof MetaphysisMap, label: string, unit = 'mm') => (
    <NumberLine label={label} unit={unit} placeholder="not known" slot={fieldOf(whole, key) as Slot<number>} />
  );
  return (
    <>
      <div className="taps">
        <span className="taps-label">Flare</span>
        <fieldset className="taps-row">
          <legend className="unseen">Flare of the metaphysis</legend>
          {FLARES.map((one) => (
            <button
              key={one}
              type="button"
              aria-pressed={flare.value === one}
              onClick={() => flare.set(flare.value === one ? undefined : one)}
            >
              {FLARE_WORDS[one]}
            </button>
          ))}
        </fieldset>
      </div>
      <h4>Cavity, for sleeves and cones</h4>
      <div className="region-rest">
        {line('cavityWidthMm', 'Width, AP film')}
        {line('cavityApMm', 'Front to back, lateral film')}
        {line('cavityHeightMm', 'Height')}
        {line('cavityFromPlaneMm', 'Mouth beyond the resection plane')}
        {line('wallMm', 'Thinnest wall left')}
        {line('hostContactPct', 'Wall that is host bone', '%')}
      </div>
      <DrawButton surface={`${bone}-metaphysis`} compartment="both" />
    </>
  );
}

const ATTACHMENTS: Readonly<Record<BoneName, readonly (readonly [string, string])[]>> = {
  femur: [
    ['medialCollateral', 'Medial collateral'],
    ['lateralCollateral', 'Lateral collateral'],
  ],
  tibia: [
    ['medialCollateral', 'Medial collateral'],
    ['lateralCollateral', 'Lateral collateral'],
    ['patellarTendon', 'Patellar tendon'],
  ],
};

/** What holds to this bone, and how far the loss reaches. */
export function AttachmentLines({ bone }: { readonly bone: BoneName }) {
  const reaches = useSlot<boolean>(`/bone/${bone}Map/${bone === 'femur' ? 'reachesEpicondyles' : 'reachesTubercle'}`);
  return (
    <div className="attachments">
      {ATTACHMENTS[bone].map(([field, label]) => (
        <AttachmentLine key={field} at={`/bone/${bone}Map/${field}`} label={label} />
      ))}
      <Three
        label={bone === 'femur' ? 'Loss reaches the epicondyles' : 'Loss reaches beyond the tubercle'}
        slot={asAnswer(reaches)}
        words={YES_NO}
      />
    </div>
  );
}

function AttachmentLine({ at, label }: { readonly at: string; readonly label: string }) {
  const slot = useSlot<Attachment>(at);
  return <Three label={label} slot={orUnknown(slot)} words={HELD} />;
}
