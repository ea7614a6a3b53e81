import type { BoneClass } from '@gapline/core/bone/bone-class.ts';
import { checkBoneMap } from '@gapline/core/bone/check-bone-map.ts';
import { type ClassFromMap, classFromMap, compareClass } from '@gapline/core/bone/class-from-map.ts';
import type { MapOfBone } from '@gapline/core/bone/map-of-bone.ts';
import { type ZoneCount, zonesOfFixation } from '@gapline/core/bone/zones.ts';
import { type ZoneLeft, zonesLeft } from '@gapline/core/bone/zones-left.ts';
import type { Reason } from '@gapline/core/measure/outcome.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import type { SurpriseStanding } from '../standing.ts';
import type { BoneName } from './bone-drawing.ts';

/** One bone of the case read through the core: proposal, contradictions, zones. */
export interface BoneReading {
  readonly stated: BoneClass | undefined;
  readonly proposal: ClassFromMap;
  readonly agreement: ReturnType<typeof compareClass>;
  readonly contradictions: readonly Reason[];
  readonly left: readonly ZoneLeft[];
  /** Zones that the plan's construct uses; null while there is no construct or no class. */
  readonly used: ZoneCount | null;
}

const mapOf = (file: CaseFile, bone: BoneName): MapOfBone =>
  bone === 'femur' ? { bone, map: file.bone?.femurMap ?? {} } : { bone, map: file.bone?.tibiaMap ?? {} };

export function readBone(file: CaseFile, plan: Plan, bone: BoneName): BoneReading {
  const map = mapOf(file, bone);
  const stated = bone === 'femur' ? file.bone?.femurClass : file.bone?.tibiaClass;
  const quality = (bone === 'femur' ? file.bone?.femurQuality : file.bone?.tibiaQuality) ?? 'unknown';
  const canalMm = (bone === 'femur' ? file.bone?.femurCanalMm : file.bone?.tibiaCanalMm) ?? null;
  const proposal = classFromMap(map);
  const construct = plan.construct.kind === 'solved' ? plan.construct.answer.best.construct : null;
  const parts = construct && {
    stem: (bone === 'femur' ? construct.femoralStem : construct.tibialStem) !== null,
    cone: Boolean(bone === 'femur' ? construct.femoralCone : construct.tibialCone),
    sleeve: Boolean(bone === 'femur' ? construct.femoralSleeve : construct.tibialSleeve),
  };
  return {
    stated,
    proposal,
    agreement: compareClass(stated, proposal),
    contradictions: checkBoneMap(map),
    left: zonesLeft({ boneClass: stated ?? null, quality, map, canalMm }),
    used: parts && stated ? zonesOfFixation({ boneClass: stated, quality, ...parts }) : null,
  };
}

/** Where the bone stock stands, in one line. */
export function boneStockStanding(femur: BoneReading, tibia: BoneReading): SurpriseStanding {
  const clashes = femur.contradictions.length + tibia.contradictions.length;
  if (clashes > 0)
    return { is: 'conflict', line: clashes === 1 ? 'One contradiction to mend' : `${clashes} contradictions to mend` };
  const open = [femur, tibia].flatMap((r, i) => (r.stated === undefined ? [i === 0 ? 'femur' : 'tibia'] : []));
  if (open.length > 0) return { is: 'open', line: `Class not stated: ${open.join(' and ')}` };
  const words = `Femur ${femur.stated}, tibia ${tibia.stated}`;
  const disputed = [femur, tibia].some((r) => r.agreement === 'milder' || r.agreement === 'worse');
  return disputed ? { is: 'conflict', line: `${words}; the map says otherwise` } : { is: 'settled', line: words };
}
