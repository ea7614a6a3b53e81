import type { Catalogue } from '../catalogue/catalogue.ts';
import type { Construct } from '../gaps/construct.ts';
import { type PartsOfConstruct, partsOf } from '../gaps/parts-of.ts';
import { bestFitFirst, type CavityVerdict } from '../metaphysis/fit-cavity.ts';
import { type JoinVerdict, joinParts } from '../metaphysis/join-parts.ts';
import type { MetaphysealPart } from '../metaphysis/metaphyseal-part.ts';
import type { Maps } from './bone-stock-support.ts';
import type { CaseFile } from './case.ts';
import type { Missing } from './plan.ts';
import { cavityVerdicts } from './stem-plan-limits.ts';

type Bone = 'femur' | 'tibia';

/** Cones and sleeves for one bone. */
export interface MetaphysisOfBone {
  readonly bone: Bone;
  /** Every cone and sleeve of the catalogue in the measured cavity, best fit first; null = the cavity is not measured. */
  readonly fits: readonly CavityVerdict[] | null;
  /** The one of the proposed construct: how it lies, and whether it goes together with what is joined to it. */
  readonly chosen: { readonly ref: string; readonly fit: CavityVerdict | null; readonly joins: JoinVerdict } | null;
}

export interface MetaphysisPlan {
  readonly femur: MetaphysisOfBone;
  readonly tibia: MetaphysisOfBone;
  readonly notKnown: readonly Missing[];
}

/** Cones and sleeves of both bones (META-1 to META-8): fitted to the measured cavities, and the chosen ones to their neighbours. */
export function metaphysisPlan(
  { maps, catalogue, file }: { readonly maps: Maps; readonly catalogue: Catalogue; readonly file: CaseFile },
  construct: Construct | null,
): MetaphysisPlan {
  const parts = construct ? partsOf(construct, catalogue) : null;
  const of = (bone: Bone): MetaphysisOfBone => {
    const verdicts = cavityVerdicts(bone, maps[bone].metaphysis, catalogue);
    return { bone, fits: verdicts && bestFitFirst(verdicts), chosen: parts && chosenIn(bone, parts, verdicts) };
  };
  const [femur, tibia] = [of('femur'), of('tibia')];
  return { femur, tibia, notKnown: [femur, tibia].flatMap((b) => unmeasured(b, file)) };
}

function chosenIn(
  bone: Bone,
  parts: PartsOfConstruct,
  verdicts: readonly CavityVerdict[] | null,
): MetaphysisOfBone['chosen'] {
  const onFemur = bone === 'femur';
  const cone = onFemur ? parts.femoralCone : parts.tibialCone;
  const sleeve = onFemur ? parts.femoralSleeve : parts.tibialSleeve;
  const chosen: MetaphysealPart | null = cone
    ? { kind: 'cone', part: cone }
    : sleeve && { kind: 'sleeve', part: sleeve };
  if (!chosen) return null;
  return {
    ref: chosen.part.ref,
    fit: verdicts?.find((v) => v.ref === chosen.part.ref) ?? null,
    joins: joinParts(chosen, {
      component: onFemur ? { bone: 'femur', part: parts.femur } : { bone: 'tibia', part: parts.tray },
      stem: onFemur ? parts.femoralStem : parts.tibialStem,
      coupler: onFemur ? parts.femoralOffset : parts.tibialOffset,
      besides: cone && sleeve ? 'sleeve' : null,
    }),
  };
}

/** A bone of class 1 keeps its metaphysis: there nothing is missed. */
const unmeasured = ({ bone, fits }: MetaphysisOfBone, file: CaseFile): readonly Missing[] =>
  fits || file.bone?.[`${bone}Class`] === '1'
    ? []
    : [
        {
          what: `Cavity of the ${bone === 'femur' ? 'femoral' : 'tibial'} metaphysis`,
          field: `bone.${bone}Map.metaphysis`,
          wouldChange: 'Which cones and sleeves fit; until then the solver takes them by size alone.',
        },
      ];
