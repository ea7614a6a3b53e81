import { sagittalFilms } from '../joint-line/joint-line-input.ts';
import { CARTILAGE_MM } from '../joint-line/landmark-distances.ts';
import { otherSide, type PerCompartment } from '../landmarks/side.ts';
import { measureOne } from '../limb/measure-one.ts';
import { POSTERIOR_CONDYLAR_OFFSET } from '../limb/posterior-condylar-offset.ts';
import { type BoneInputs, sagittally } from './bone-inputs.ts';
import { mapsOf } from './bone-stock.ts';
import { supportFromMap } from './bone-stock-support.ts';
import { type FindingsBook, goWithout, type Known, measuredFor, together } from './findings-book.ts';
import {
  anteriorToTarget,
  type OffsetTarget,
  PUBLISHED_RATIO,
  posteriorSupport,
  presentAnterior,
  shaftDepth,
  targetSdMm,
} from './posterior-target.ts';
import { POSTERIOR_TARGET, summed } from './shared-spread.ts';

export interface SagittalBone {
  /** A0. */
  readonly anteriorToPosterior: Known | null;
  /** P: a lateral film shows both sides as one, only the bone map tells them apart. */
  readonly posterior: PerCompartment<Known | null>;
  /** q of the present component. */
  readonly presentAnterior: Known | null;
  readonly slope: Known | null;
}

/** A0, P, present q and slope of spec section 3 from lateral films. */
export function sagittalBone(book: FindingsBook, inputs: BoneInputs): SagittalBone {
  const target = offsetTarget(inputs);
  const depth = sagittally(inputs, shaftDepth);
  const targetSd = depth.value === null ? null : targetSdMm(target, depth.value);
  const found = (d: Parameters<typeof sagittally>[1], why: string): Known | null => {
    const known = measuredFor(book, sagittally(inputs, d), why);
    return (
      known && {
        ...known,
        sd: together(known.sd, targetSd),
        shared: summed([1, known.shared], [targetSd ?? 0, POSTERIOR_TARGET]),
        from: `${known.from}; target offset: ${target.from}`,
      }
    );
  };
  const lost = inputs.file.bone?.removalLossMm?.femurPosterior;
  if (lost === undefined) goWithout(book, POSTERIOR_LOSS);
  const mark = found(posteriorSupport(target), 'Posterior augments and the flexion gap.');
  const presentQ = found(presentAnterior(target), 'The flexion gap.');
  const thickness = inputs.file.implants?.femurPosteriorMm;
  const support = supportFromMap(book, {
    label: 'posterior femur',
    field: 'bone.femurMap.posterior',
    marks: { medial: mark, lateral: mark },
    losses: mapsOf(inputs.stock).femur.posterior,
    plane: presentQ && thickness !== undefined ? { ...presentQ, value: presentQ.value + thickness } : null,
  });
  const withLoss = (known: Known | null) =>
    known && {
      ...known,
      value: known.value + (lost ?? 0),
      from: `${known.from}; a lateral film shows both sides as one; ${lost === undefined ? 'loss at removal not stated' : `loss ${lost.toFixed(1)} mm`}`,
    };
  const slope = inputs.measurements.find((m) => m.id === 'tibial-slope' && m.side === inputs.file.side);
  return {
    anteriorToPosterior: found(anteriorToTarget(target), 'Size of the femoral component and the flexion gap.'),
    presentAnterior: presentQ,
    posterior: { medial: withLoss(support.medial), lateral: withLoss(support.lateral) },
    slope:
      slope && slope.value !== null
        ? { value: slope.value, sd: slope.sd, from: `film ${slope.film}, ${slope.variant ?? ''}` }
        : null,
  };
}

/** Spread of an offset taken from another film of the same knee, or from the other knee, beyond its marks, mm (derived; assumption). */
const OTHER_FILM_SD_MM = { earlier: 1.5, otherKnee: 2 } as const;

/**
 * Where the posterior condyles belong (PLAN-14): as on a film of this knee before its first replacement, else as on the native other
 * knee, each with its cartilage added, else by the published ratio.
 */
export function offsetTarget(inputs: BoneInputs): OffsetTarget {
  const { evidence } = inputs;
  const earlier = sagittalFilms(evidence, evidence.side, 'before-first-replacement');
  const other = sagittalFilms(evidence, otherSide(evidence.side), 'present').filter(
    (f) => !f.placed.has('femoral-component-distal-anterior') && f.placed.has('posterior-condyle'),
  );
  const choices = [
    { films: earlier, sd: OTHER_FILM_SD_MM.earlier, words: 'before the first replacement' },
    { films: other, sd: OTHER_FILM_SD_MM.otherKnee, words: 'of the native other knee' },
  ];
  for (const { films, sd, words } of choices) {
    // A film from before counts here as what it shows: native bone as it stood then.
    const asPresent = films.map((f) => ({ ...f, film: { ...f.film, role: 'present' as const } }));
    const where = { evidence: { ...evidence, state: 'native' as const }, films: asPresent, unreadable: new Map() };
    const m = measureOne(POSTERIOR_CONDYLAR_OFFSET, where);
    if (m.value === null) continue;
    const mm = m.value + CARTILAGE_MM;
    const from = `film ${m.film} ${words}: ${m.value.toFixed(1)} mm and ${CARTILAGE_MM} mm of cartilage`;
    return { kind: 'length', mm, sdMm: together(m.sd, sd) ?? sd, from };
  }
  return PUBLISHED_RATIO;
}

const POSTERIOR_LOSS = {
  what: 'Bone lost at removal, posterior femur',
  field: 'bone.removalLossMm.femurPosterior',
  wouldChange:
    'The plan is for the bone as marked; each millimetre lost asks for as much posterior augment or cement more.',
};
