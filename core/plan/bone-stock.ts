import type { BoneClass, BoneQuality } from '../bone/bone-class.ts';
import { checkBoneMap } from '../bone/check-bone-map.ts';
import type { SizeOfBone } from '../bone/check-metaphysis.ts';
import { type ClassFromMap, type ClassStanding, classFromMap, compareClass } from '../bone/class-from-map.ts';
import { oneClassWorse } from '../bone/class-worse.ts';
import { attachmentsOf, type MapOfBone } from '../bone/map-of-bone.ts';
import {
  checkRemovalEstimates,
  type RemovalSurface,
  removalEstimate,
  type SourcedRemovalEstimate,
} from '../bone/removal-loss.ts';
import { type ZoneLeft, zonesLeft } from '../bone/zones-left.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { Measurement } from '../limb/measurement.ts';
import type { Reason, Warning } from '../measure/outcome.ts';
import { boneOf, type DrawnOnSide, measureDrawn } from './bone-stock-drawn.ts';
import { type EnteredAndDrawn, mergeMap, type TakenFromDrawing } from './bone-stock-merge.ts';
import type { Maps } from './bone-stock-support.ts';
import type { CaseFile } from './case.ts';
import type { TargetTilt } from './target-axes.ts';

/** Everything that is known of one bone to build on. */
export interface StockOfBone {
  readonly bone: 'femur' | 'tibia';
  /** As entered, with what the drawings add. */
  readonly map: MapOfBone;
  /** Every drawing of this bone, measured in mm or with the reason why not. */
  readonly drawn: readonly DrawnOnSide[];
  readonly taken: readonly TakenFromDrawing[];
  readonly both: readonly EnteredAndDrawn[];
  readonly contradictions: readonly Reason[];
  readonly proposal: ClassFromMap;
  /** The surgeon's class; null = not stated. Only it enters the plan. */
  readonly statedClass: BoneClass | null;
  readonly standing: ClassStanding;
  /** Set where the surgeon's class is missing and the map proposes one: accepting it is one edit of this field. */
  readonly toAccept: { readonly field: string; readonly value: BoneClass } | null;
  /** What to be ready for besides; null = no class known. */
  readonly oneWorse: BoneClass | null;
  readonly quality: BoneQuality | 'unknown';
  readonly zones: readonly ZoneLeft[];
  /** Loss expected at removal by surface; empty = how the component is held is not stated. */
  readonly removal: readonly SourcedRemovalEstimate[];
}

export interface BoneStock {
  readonly femur: StockOfBone;
  readonly tibia: StockOfBone;
}

/** What the stock is read from: films and marks with their scales, where the target lies, what was measured. */
export interface StockSources {
  readonly evidence: KneeEvidence;
  readonly tilt: TargetTilt;
  readonly measurements: readonly Measurement[];
}

/**
 * Bone stock of both bones (BONE-5 to BONE-11): the map as entered with what drawings on films add, what contradicts itself in it, the class
 * that it proposes beside the surgeon's, zones of fixation left, and the loss expected at removal.
 *
 * Entered by hand wins over drawn, and the difference is shown. A proposed class enters no plan: a person accepts it
 * first (`toAccept`). Lengths mm, shares %. Nothing is filled in: what is missing is named with what it would change.
 */
export function boneStock(file: CaseFile, sources: StockSources): BoneStock {
  const drawn = measureDrawn({ file, ...sources });
  const { bone } = file;
  return {
    femur: stockOf({ bone: 'femur', map: bone?.femurMap ?? {} }, { file, drawn, sources }),
    tibia: stockOf({ bone: 'tibia', map: bone?.tibiaMap ?? {} }, { file, drawn, sources }),
  };
}

/** Both maps, each known to be of its bone. */
export const mapsOf = ({ femur, tibia }: BoneStock): Maps => ({
  femur: femur.map.bone === 'femur' ? femur.map.map : {},
  tibia: tibia.map.bone === 'tibia' ? tibia.map.map : {},
});

/**
 * What of the stock is shown among the plan's conflicts: contradictions, drawings that could not be measured, and entered values further
 * from their drawing than its error and an eye explain.
 */
export const conflictsOfStock = ({ femur, tibia }: BoneStock): readonly Warning[] =>
  [femur, tibia].flatMap((stock) => [
    ...stock.contradictions,
    ...stock.drawn.flatMap(({ size }) => (size.ok ? [] : [size.reason])),
    ...stock.both.filter((b) => b.apart).map(drawnApart),
  ]);

const drawnApart = ({ field, entered, drawn, film }: EnteredAndDrawn): Warning => ({
  code: 'entered-and-drawn-apart',
  message: `Entered ${entered} ${drawn.unit}, drawn ${drawn.value.toFixed(1)}${drawn.sd === null ? '' : ` ± ${drawn.sd.toFixed(1)}`} ${drawn.unit} on film ${film}; the entered value holds.`,
  field,
  mend: 'Correct the entry or the drawing, or clear the entry to use the drawing.',
});

interface StockFrom {
  readonly file: CaseFile;
  readonly drawn: readonly DrawnOnSide[];
  readonly sources: StockSources;
}

function stockOf(entered: MapOfBone, { file, drawn, sources }: StockFrom): StockOfBone {
  const { bone } = entered;
  const findings = file.bone ?? {};
  const { map, taken, both } = mergeMap(entered, drawn);
  const proposal = classFromMap(map);
  const stated = findings[`${bone}Class`];
  const quality = findings[`${bone}Quality`] ?? 'unknown';
  const fixation = findings[`${bone}Fixation`];
  const canalMm = findings[`${bone}CanalMm`] ?? null;
  const known = stated ?? proposal.proposed;
  const toAccept = stated === undefined && proposal.proposed !== null;
  return {
    bone,
    map,
    drawn: drawn.filter((d) => boneOf(d.drawn) === bone),
    taken,
    both,
    contradictions: [
      ...checkBoneMap(map, sizeOf(bone, file, sources.measurements)),
      ...ligamentsAgainstMap(map, file),
      ...checkRemovalEstimates(findings.removalEstimates ?? [], REMOVED[bone]),
    ],
    proposal,
    statedClass: stated ?? null,
    standing: compareClass(stated, proposal),
    toAccept: toAccept && proposal.proposed ? { field: `/bone/${bone}Class`, value: proposal.proposed } : null,
    oneWorse: known === null ? null : oneClassWorse(known),
    quality,
    zones: zonesLeft({ boneClass: stated ?? null, quality, map, canalMm }),
    removal: fixation
      ? REMOVED[bone].map((surface) => removalEstimate(fixation, surface, findings.removalEstimates))
      : [],
  };
}

const REMOVED: Readonly<Record<'femur' | 'tibia', readonly RemovalSurface[]>> = {
  femur: ['femur-distal', 'femur-posterior'],
  tibia: ['tibia'],
};

function sizeOf(bone: 'femur' | 'tibia', file: CaseFile, measurements: readonly Measurement[]): SizeOfBone {
  const id = bone === 'femur' ? 'femoral-bone-width' : 'tibial-bone-width';
  const width = measurements.find((m) => m.id === id && m.side === file.side)?.value ?? undefined;
  const canal = file.bone?.[`${bone}CanalMm`];
  return { ...(width === undefined ? {} : { widthMm: width }), ...(canal === undefined ? {} : { canalMm: canal }) };
}

/** A ligament whose attachment is lost is not intact (BONE-7). */
function ligamentsAgainstMap(map: MapOfBone, { examination }: CaseFile): readonly Reason[] {
  const examined = {
    'medial collateral': ['mcl', examination?.mcl],
    'lateral collateral': ['lcl', examination?.lcl],
    'patellar tendon': ['extensorMechanism', examination?.extensorMechanism],
  } as const;
  return attachmentsOf(map).flatMap(({ label, state, field }) => {
    const [name, found] = examined[label];
    if (state !== 'lost' || found !== 'intact') return [];
    return [
      {
        code: 'bone-map-contradicts',
        message: `The attachment of the ${label} is lost on the ${map.bone}, but it was examined as intact.`,
        field,
        mend: `Correct the attachment, or examination.${name}.`,
      },
    ];
  });
}
