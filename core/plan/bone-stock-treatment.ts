import { attachmentsOf, type MappedSurface, SIDES, surfacesOf } from '../bone/map-of-bone.ts';
import type { DefectFacts } from '../bone/treatment/defect-facts.ts';
import { type StemCallByRules, stemRules } from '../bone/treatment/stem-rules.ts';
import { type TreatmentOption, treatmentOptions } from '../bone/treatment/treatment-options.ts';
import type { Construct } from '../gaps/construct.ts';
import { dayNumber } from '../laboratory/day.ts';
import type { StockOfBone } from './bone-stock.ts';
import type { CaseFile } from './case.ts';

/** Ways to treat the loss of one surface. */
export interface TreatmentOfSurface {
  /** E.g. "medial plateau". */
  readonly label: string;
  readonly field: string;
  readonly options: readonly TreatmentOption[];
}

/** What the reader adds for one reading; the case does not hold it. */
export type AskedOfReader = Pick<DefectFacts, 'demand' | 'failedBefore'>;

/**
 * Treatment by defect (TRE-1 to TRE-19) for every surface of one bone of which the map knows anything: with the surgeon's class, never a
 * proposed one, the age on the day of surgery, and what the surface itself says. What the case does not hold, demand on
 * the knee and failed reconstruction, is `asked` of the reader; else it stays not known, under `missing`.
 */
export function treatmentBySurface(
  stock: StockOfBone,
  file: CaseFile,
  asked: AskedOfReader = {},
): readonly TreatmentOfSurface[] {
  const facts = { ...factsOfBone(stock, file), ...asked };
  return SIDES.flatMap((side) => surfacesOf(stock.map, side))
    .filter(({ loss }) => Object.keys(loss).length > 0)
    .map((surface) => ({
      label: surface.label,
      field: surface.field,
      options: treatmentOptions({ ...facts, ...factsOfSurface(surface) }),
    }));
}

function factsOfBone(
  stock: StockOfBone,
  file: CaseFile,
): Omit<DefectFacts, 'depthMm' | 'unsupportedPct' | 'containment'> {
  const attachments = attachmentsOf(stock.map).map((a) => a.state);
  const lost = attachments.includes('lost') ? true : attachments.includes(undefined) ? undefined : false;
  const age = ageAtSurgery(file);
  return {
    bone: stock.bone,
    boneClass: stock.statedClass,
    quality: stock.quality,
    ...(age === null ? {} : { age }),
    ...(lost === undefined ? {} : { attachmentLost: lost }),
  };
}

const factsOfSurface = ({ loss }: MappedSurface): Pick<DefectFacts, 'depthMm' | 'unsupportedPct' | 'containment'> => ({
  depthMm: loss.depthMm ?? null,
  unsupportedPct: loss.unsupportedPct ?? null,
  containment: loss.contained === undefined ? 'unknown' : loss.contained ? 'contained' : 'uncontained',
});

/** Whole years on the day of surgery or, while that is open, of the latest film; null where either day is not known. */
export function ageAtSurgery({ patient, kit, films }: CaseFile): number | null {
  const born = patient.birthDate;
  const isDay = (day: string | undefined): day is string => day !== undefined && dayNumber(day) !== null;
  const days = films.map((f) => f.takenOn).filter(isDay);
  const on = isDay(kit?.surgeryOn) ? kit.surgeryOn : days.sort().at(-1);
  if (!isDay(born) || on === undefined || on < born) return null;
  const years = Number(on.slice(0, 4)) - Number(born.slice(0, 4));
  return on.slice(5) < born.slice(5) ? years - 1 : years;
}

/** Whether the planned construct's bone takes a stem (TRE-20 to TRE-26), and how far past weak spots its tip must reach. */
export function stemCallOf(stock: StockOfBone, construct: Construct): StemCallByRules {
  const { distalAugments: d, posteriorAugments: p, tibialAugments: t } = construct;
  const [augments, cone, sleeve] =
    stock.bone === 'femur'
      ? [[d.medial, d.lateral, p.medial, p.lateral], construct.femoralCone, construct.femoralSleeve]
      : [[t.medial, t.lateral], construct.tibialCone, construct.tibialSleeve];
  const { weakSpots, outerDiameterMm } = stock.map.map.diaphysis ?? {};
  return stemRules({
    bone: stock.bone,
    boneClass: stock.statedClass,
    quality: stock.quality,
    augment: augments.some((a) => a !== null),
    graft: false,
    cone: typeof cone === 'string',
    sleeve: typeof sleeve === 'string',
    level: construct.level,
    ...(weakSpots ? { weakSpots } : {}),
    ...(outerDiameterMm === undefined ? {} : { outerDiameterMm }),
  });
}
