import type { Origin } from '@gapline/core/plan/plan.ts';
import { usePlanning } from '../case/desk.tsx';
import { ChoiceField, NumberField, PairField, TextField } from '../parts/fields.tsx';
import { number } from '../parts/words.ts';

const LIGAMENT = [
  ['intact', 'intact'],
  ['attenuated', 'attenuated'],
  ['absent', 'absent'],
  ['unknown', 'examined, not certain'],
] as const;
const CLASSES = [
  ['1', '1: intact metaphysis'],
  ['2A', '2A: loss of one condyle'],
  ['2B', '2B: loss of both condyles'],
  ['3', '3: metaphysis deficient'],
] as const;
const QUALITY = [
  ['good', 'good'],
  ['sclerotic', 'sclerotic'],
  ['osteoporotic', 'osteoporotic'],
] as const;

/** What the films cannot say. Every field may stay unknown; unknown is never read as intact. */
export function BoneStep() {
  const bone = usePlanning((s) => s.plan.bone);
  return (
    <>
      <Group title="Ligaments" open>
        <ChoiceField label="Medial collateral" field="/examination/mcl" options={LIGAMENT} none="not known" />
        <ChoiceField label="Lateral collateral" field="/examination/lcl" options={LIGAMENT} none="not known" />
        <ChoiceField
          label="Extensor mechanism"
          field="/examination/extensorMechanism"
          options={LIGAMENT}
          none="not known"
        />
        <NumberField label="Recurvatum" field="/examination/recurvatumDeg" unit="°" />
        <NumberField label="Flexion reached" field="/examination/flexionDeg" unit="°" />
      </Group>
      <Group title="Opening under stress, present implant">
        <PairField label="At 0°" field="/examination/openingExtensionMm" />
        <PairField label="At 90°" field="/examination/openingFlexionMm" />
        <NumberField label="Spread of the openings" field="/examination/openingSdMm" hint="standard deviation" />
      </Group>
      <Group title="Bone loss" open>
        <ChoiceField label="Femur, AORI class" field="/bone/femurClass" options={CLASSES} none="not known" />
        <ChoiceField label="Femur, quality" field="/bone/femurQuality" options={QUALITY} none="not known" />
        <ChoiceField label="Tibia, AORI class" field="/bone/tibiaClass" options={CLASSES} none="not known" />
        <ChoiceField label="Tibia, quality" field="/bone/tibiaQuality" options={QUALITY} none="not known" />
        <NumberField label="Femoral canal" field="/bone/femurCanalMm" hint="inner width for a stem" />
        <NumberField label="Tibial canal" field="/bone/tibiaCanalMm" hint="inner width for a stem" />
      </Group>
      <Group title="Further loss expected at removal">
        <NumberField label="Femur, distal" field="/bone/removalLossMm/femurDistal" />
        <NumberField label="Femur, posterior" field="/bone/removalLossMm/femurPosterior" />
        <NumberField label="Tibia" field="/bone/removalLossMm/tibia" />
      </Group>
      <Group title="Implants in place">
        <NumberField label="Femur, distal thickness" field="/implants/femurDistalMm" />
        <NumberField label="Femur, posterior thickness" field="/implants/femurPosteriorMm" />
        <NumberField label="Femur, width" field="/implants/femurWidthMm" />
        <NumberField label="Tray, width" field="/implants/trayWidthMm" />
        <NumberField label="Tray, thickness" field="/implants/trayThicknessMm" />
        <NumberField label="Insert" field="/implants/insertMm" />
        <TextField label="Known from" field="/implants/from" />
      </Group>
      <Group title="Posture on the long-leg film">
        <NumberField label="Flexion of the knee" field="/examination/filmFlexionDeg" unit="°" />
        <NumberField label="Rotation of the limb" field="/examination/filmRotationDeg" unit="°" hint="external +" />
      </Group>
      {bone.ok && <Origins origins={bone.value.origins} />}
    </>
  );
}

function Group({
  title,
  open = false,
  children,
}: {
  readonly title: string;
  readonly open?: boolean;
  readonly children: React.ReactNode;
}) {
  return (
    <details className="group" open={open}>
      <summary>{title}</summary>
      <div className="fields">{children}</div>
    </details>
  );
}

/** Where every number that the construct is solved for came from. */
function Origins({ origins }: { readonly origins: readonly Origin[] }) {
  return (
    <details className="group">
      <summary>What the construct is solved for</summary>
      <table className="origins">
        <thead>
          <tr>
            <th scope="col">Quantity</th>
            <th scope="col">Value</th>
            <th scope="col">From</th>
          </tr>
        </thead>
        <tbody>
          {origins.map((o) => (
            <tr key={o.field}>
              <th scope="row">{o.label}</th>
              <td>
                {typeof o.value === 'number' ? number(o.value) : o.value} {typeof o.value === 'number' ? o.unit : ''}
              </td>
              <td>
                {o.from} <small>{o.rule}</small>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
