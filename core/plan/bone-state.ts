import type { BoneState } from '../gaps/bone-state.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import { cannot, ok } from '../measure/outcome.ts';
import type { BoneInputs } from './bone-inputs.ts';
import type { StockOfBone } from './bone-stock.ts';
import { coronalBone } from './coronal-bone.ts';
import { type FindingsBook, goWithout, type Known, need } from './findings-book.ts';
import { laxityOnTarget } from './laxity-on-target.ts';
import type { Missing, Origin, Plan } from './plan.ts';
import { sagittalBone } from './sagittal-bone.ts';

/**
 * y_c, how far the flexion contact lies behind the extension contact, mm (PLAN-17): 0.23 mm of flexion gap per degree of slope
 * in posterior-stabilised knees (Okazaki 2014) over tan 1 degree. Its spread spans published 0.15 to 0.30 mm a degree (assumption).
 */
export const FLEXION_CONTACT = { behindMm: 13.2, sdMm: 3 } as const;

/** Spec section 3 from films and examination, every value with its origin; or everything that is missing for it. */
export function boneState(book: FindingsBook, inputs: BoneInputs): Plan['bone'] {
  const { file } = inputs;
  const coronal = coronalBone(book, inputs);
  const sagittal = sagittalBone(book, inputs);
  const laxity = laxityOnTarget(book, inputs, sagittal.presentAnterior);
  const classes = {
    femur: file.bone?.femurClass ?? need(book, CLASS(inputs.stock.femur)),
    tibia: file.bone?.tibiaClass ?? need(book, CLASS(inputs.stock.tibia)),
  };
  const slope = sagittal.slope ?? slopeNotMeasured(book, file.settings?.targetSlopeDeg ?? 0);
  examined(book, inputs);

  const [femurDistal, tibia] = [whole(coronal.femurDistal), whole(coronal.tibia)];
  const [extension, flexion] = [whole(laxity.extension), whole(laxity.flexion)];
  const { femurWidth, tibiaWidth } = coronal;
  const { anteriorToPosterior } = sagittal;
  const posterior = whole(sagittal.posterior);
  if (!femurDistal || !tibia || !femurWidth || !tibiaWidth || !extension || !flexion) return incomplete(book.needed);
  if (!anteriorToPosterior || !posterior || !classes.femur || !classes.tibia) return incomplete(book.needed);

  const note = (field: string, label: string, [known, rule, unit]: [Known, string, string?]) => {
    const { value, sd, from, shared } = known;
    book.origins.push({ field, label, value, unit: unit ?? 'mm', sd, from, rule, ...(shared ? { shared } : {}) });
    return value;
  };
  const pair = (field: string, label: string, [known, rule]: [PerCompartment<Known>, string]) => ({
    medial: note(`${field}.medial`, `${label}, medial`, [known.medial, rule]),
    lateral: note(`${field}.lateral`, `${label}, lateral`, [known.lateral, rule]),
  });
  const state: BoneState = {
    side: file.side,
    femurDistalMm: pair('femurDistalMm', 'Distal femoral support above the target', [femurDistal, 'PLAN-11']),
    femurPosteriorMm: pair('femurPosteriorMm', 'Posterior femoral support before the target line', [
      posterior,
      'PLAN-14',
    ]),
    anteriorToPosteriorMm: note('anteriorToPosteriorMm', 'Anterior cortex to target posterior line', [
      anteriorToPosterior,
      'PLAN-14',
    ]),
    femurWidthMm: note('femurWidthMm', 'Femoral width', [femurWidth, 'LIMB-13']),
    tibiaWidthMm: note('tibiaWidthMm', 'Tibial width', [tibiaWidth, 'LIMB-13']),
    tibiaMm: pair('tibiaMm', 'Tibial support below the target', [tibia, 'PLAN-12']),
    extensionLaxityMm: pair('extensionLaxityMm', 'Laxity on target at 0 degrees', [extension, 'PLAN-15']),
    flexionLaxityMm: pair('flexionLaxityMm', 'Laxity on target at 90 degrees', [flexion, 'PLAN-16']),
    flexionContactBehindMm: note('flexionContactBehindMm', 'Flexion contact behind extension contact', [
      { value: FLEXION_CONTACT.behindMm, sd: FLEXION_CONTACT.sdMm, from: 'published: Okazaki 2014' },
      'PLAN-17',
    ]),
    referenceSlopeDeg: note('referenceSlopeDeg', 'Slope at which the flexion laxity holds', [slope, 'LIMB-14', 'deg']),
    femurClass: stated(book, { field: 'femurClass', label: 'Bone class, femur', value: classes.femur }),
    tibiaClass: stated(book, { field: 'tibiaClass', label: 'Bone class, tibia', value: classes.tibia }),
    femurQuality: file.bone?.femurQuality ?? 'unknown',
    tibiaQuality: file.bone?.tibiaQuality ?? 'unknown',
    mcl: file.examination?.mcl ?? 'unknown',
    lcl: file.examination?.lcl ?? 'unknown',
    extensorMechanism: file.examination?.extensorMechanism ?? 'unknown',
    recurvatumDeg: file.examination?.recurvatumDeg ?? null,
    femurCanalMm: file.bone?.femurCanalMm ?? null,
    tibiaCanalMm: file.bone?.tibiaCanalMm ?? null,
  };
  return ok({ state, origins: book.origins });
}

const whole = (p: PerCompartment<Known | null>): PerCompartment<Known> | null =>
  p.medial && p.lateral ? { medial: p.medial, lateral: p.lateral } : null;

function stated<V extends string>(book: FindingsBook, s: { field: string; label: string; value: V }): V {
  const origin: Origin = { ...s, unit: '', sd: null, from: 'stated in the case', rule: 'PLAN-18' };
  book.origins.push(origin);
  return s.value;
}

function slopeNotMeasured(book: FindingsBook, assumedDeg: number): Known {
  goWithout(book, {
    what: 'Slope of the present tray',
    field: 'marks[plateau-anterior]',
    wouldChange: 'The flexion gap by about 0.2 mm for each degree; it is planned as if the slope stayed what it is.',
  });
  return {
    value: assumedDeg,
    sd: null,
    from: 'not measured: taken as the planned slope, so that nothing is corrected',
  };
}

/** What the plan is made without, with what it would change. */
function examined(book: FindingsBook, { file: { examination, bone } }: BoneInputs): void {
  const unknown = (known: unknown, what: string, [field, wouldChange]: [string, string]) => {
    if (known === undefined || known === 'unknown') goWithout(book, { what, field, wouldChange });
  };
  const level = 'The least constraint; while it is unknown a hinge must be in theatre.';
  unknown(examination?.mcl, 'Medial collateral ligament', ['examination.mcl', level]);
  unknown(examination?.lcl, 'Lateral collateral ligament', ['examination.lcl', level]);
  unknown(examination?.extensorMechanism, 'Extensor mechanism', ['examination.extensorMechanism', level]);
  unknown(examination?.recurvatumDeg, 'Passive hyperextension', ['examination.recurvatumDeg', level]);
  const stem = 'Diameter and fixation of the stem.';
  unknown(bone?.femurCanalMm, 'Canal of the femur', ['bone.femurCanalMm', stem]);
  unknown(bone?.tibiaCanalMm, 'Canal of the tibia', ['bone.tibiaCanalMm', stem]);
  const zones = 'Whether stem or cone are wanted besides.';
  unknown(bone?.femurQuality, 'Quality of the femoral bone', ['bone.femurQuality', zones]);
  unknown(bone?.tibiaQuality, 'Quality of the tibial bone', ['bone.tibiaQuality', zones]);
}

/** The class is a person's to set: one that the map proposes is named, never used by itself (BONE-5). */
const CLASS = ({ bone, proposal }: StockOfBone): Missing => ({
  what: `Class of bone loss, ${bone}`,
  field: `bone.${bone}Class`,
  wouldChange: `Zones of fixation, stems and cones.${proposal.proposed === null ? '' : ` The map proposes ${proposal.words}: accept it or set another.`}`,
});

const incomplete = (needed: readonly Missing[]): Plan['bone'] =>
  cannot({
    code: 'bone-state-incomplete',
    message: `${needed.length} ${needed.length === 1 ? 'thing is' : 'things are'} missing before a construct can be proposed.`,
    ...(needed[0] ? { field: needed[0].field, mend: `First: ${needed[0].what}.` } : {}),
  });
