import { NumberField, PairField } from '../parts/fields.tsx';
import { Fold, NumberLine, TextLine } from './inputs.tsx';
import { useReading } from './reading.tsx';
import { useSlot } from './slot.ts';
import { Tri } from './Tri.tsx';

const AT = '/workUp/history/examination';

/** Motion, lag, laxity, tenderness, pulses, skin. Openings at 0 and 90 degrees are those of the plan. */
export function ExaminationFacts() {
  const { stiffness } = useReading();
  return (
    <Fold title="Examination">
      <div className="pairs">
        <NumberLine label="Flexion" unit="°" slot={useSlot(`${AT}/flexionDeg`)} />
        <NumberLine label="Lacks extension" unit="°" slot={useSlot(`${AT}/extensionDeficitDeg`)} />
        <NumberLine label="Active lag" unit="°" slot={useSlot(`${AT}/activeLagDeg`)} />
        <NumberLine label="Drawer at 90°" unit="mm" slot={useSlot(`${AT}/drawer90Mm`)} />
      </div>
      <div className="openings">
        <PairField label="Opening at 0°" field="/examination/openingExtensionMm" />
        <PairField label="Opening at 30°" field={`${AT}/opening30Mm`} />
        <PairField label="Opening at 90°" field="/examination/openingFlexionMm" />
        <NumberField label="Recurvatum" field="/examination/recurvatumDeg" unit="°" />
      </div>
      {stiffness && (
        <p className="said-line">
          Stiffness: <strong>{`${stiffness.atLeast ? 'at least ' : ''}${stiffness.grade}`}</strong>
        </p>
      )}
      <TextLine label="Tender where" slot={useSlot(`${AT}/tenderness`)} />
      <div className="tri-list">
        <Tri label="Foot pulses felt" at={`${AT}/footPulses`} />
        <Tri label="Skin sound" at={`${AT}/skinSound`} />
        <Tri label="Rotation of the hip hurts" at={`${AT}/hipRotationPainful`} />
        <Tri label="Root signs" at={`${AT}/rootSigns`} />
      </div>
    </Fold>
  );
}
