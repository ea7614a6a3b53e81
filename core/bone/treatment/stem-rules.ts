import type { BoneClass, BoneQuality } from '../bone-class.ts';
import type { WeakSpot } from '../bone-map.ts';

/** What stands on one bone and what the bone is like. Null, `unknown` or absent = not known, never read as no. */
export interface StemFacts {
  readonly bone: 'femur' | 'tibia';
  readonly boneClass: BoneClass | null;
  readonly quality: BoneQuality | 'unknown';
  readonly augment: boolean;
  readonly graft: boolean;
  readonly cone: boolean;
  readonly sleeve: boolean;
  /** Constraint: posterior-stabilised or less, unlinked constrained, hinge; null = not chosen. */
  readonly level: 'ps' | 'vvc' | 'hinge' | null;
  readonly cemented?: boolean;
  /** Absent = not looked for; empty = none. */
  readonly weakSpots?: readonly WeakSpot[];
  /** Outer diameter of the shaft at the weak spots, mm. */
  readonly outerDiameterMm?: number;
}

export interface StemRule {
  readonly id: string;
  readonly asks: 'mandatory' | 'wanted' | 'may-be-omitted';
  readonly holds: (f: StemFacts) => boolean | null;
  readonly text: string;
  readonly source: string;
  readonly grade: 'A' | 'B' | 'C' | 'D';
}

const known = <T>(value: T | null | undefined | 'unknown', holds: (v: T) => boolean): boolean | null =>
  value === null || value === undefined || value === 'unknown' ? null : holds(value as T);

const either = (a: boolean | null, b: boolean | null): boolean | null =>
  a === true || b === true ? true : a === null || b === null ? null : false;

const both = (...truths: readonly (boolean | null)[]): boolean | null =>
  truths.includes(false) ? false : truths.includes(null) ? null : true;

const weak = (f: StemFacts): boolean | null => known<BoneQuality>(f.quality, (q) => q !== 'good');

/** When a bone takes a stem, as data (docs/rules/treatment.md). */
export const STEM_RULES: readonly StemRule[] = [
  {
    id: 'TRE-20',
    asks: 'mandatory',
    holds: (f) => f.augment,
    text: 'A metal augment, distal, posterior or tibial, always takes a stem with it.',
    source: 'common practice, no source; Rosso 2019',
    grade: 'C',
  },
  {
    id: 'TRE-21',
    asks: 'mandatory',
    holds: (f) => f.graft || f.cone || f.sleeve,
    text: 'Bulk graft, cone or sleeve: a stem; experts differ for a cone under a shallow tibial defect and for sleeves.',
    source: 'common practice, no source; Rosso 2019',
    grade: 'C',
  },
  {
    id: 'TRE-22',
    asks: 'mandatory',
    holds: (f) => known(f.level, (level) => level !== 'ps'),
    text: 'Constraint above posterior-stabilised on this bone: a stem.',
    source: 'common practice, from memory',
    grade: 'C',
  },
  {
    id: 'TRE-23',
    asks: 'mandatory',
    holds: (f) =>
      either(
        known(f.boneClass, (c) => c !== '1'),
        weak(f),
      ),
    text: 'Bone loss of type 2 or 3, or sclerotic or osteoporotic bone: a stem.',
    source: 'Rosso 2019, table 2',
    grade: 'C',
  },
  {
    id: 'TRE-24',
    asks: 'wanted',
    holds: (f) =>
      both(
        f.bone === 'femur',
        known(f.level, (level) => level === 'ps'),
        weak(f),
      ),
    text: 'A posterior-stabilised box in weak femoral bone wants a stem.',
    source: 'common practice, no source',
    grade: 'C',
  },
  {
    id: 'TRE-25',
    asks: 'mandatory',
    holds: (f) => known(f.weakSpots, (spots) => spots.length > 0),
    text: 'Window, osteotomy, perforation, fracture or screw holes: a stem that passes them by two outer diameters.',
    source: 'common practice, from memory; osteotomy of the tubercle: JBJS Essent Surg Tech',
    grade: 'C',
  },
  {
    id: 'TRE-26',
    asks: 'may-be-omitted',
    holds: (f) =>
      both(
        known(f.boneClass, (c) => c === '1'),
        known<BoneQuality>(f.quality, (q) => q === 'good'),
        known(f.level, (level) => level === 'ps'),
        known(f.cemented, (cemented) => cemented),
        known(f.weakSpots, (spots) => spots.length === 0),
        !(f.augment || f.graft || f.cone || f.sleeve),
      ),
    text: 'Type 1 in good bone, cemented, not constrained, nothing built on it: a stem may be left out.',
    source: 'Bone Joint Res 2012, 10.1302/2046-3758.111.2000107 (in vitro)',
    grade: 'B',
  },
];

/** How far a stem must reach for one weak spot. */
export interface Bypass {
  readonly spot: WeakSpot;
  /** Least distance of the tip from the target joint line, mm; null = the shaft's diameter is not known. */
  readonly tipAtLeastMm: number | null;
}

export interface StemCallByRules {
  readonly verdict: 'mandatory' | 'wanted' | 'may-be-omitted' | 'depends' | 'no-rule';
  readonly why: readonly Pick<StemRule, 'id' | 'asks' | 'text' | 'source' | 'grade'>[];
  /** Rules that hang on what is not known. */
  readonly open: readonly Pick<StemRule, 'id' | 'asks' | 'text'>[];
  readonly bypass: readonly Bypass[];
}

/** Outer diameters by which a tip passes a weak spot (TRE-25). */
const PAST_IN_DIAMETERS = 2;

/**
 * Whether one bone takes a stem (TRE-20 to TRE-26), by which rules, and how far its tip must reach past weak spots: far end and two outer
 * diameters, mm from the target joint line along the bone. One rule that makes it mandatory settles it; else a mandatory rule that hangs
 * on what is not known leaves it at `depends`. Sources stand with each rule.
 *
 * Example: a 5 mm posterior augment on a type 1 femur: mandatory, by TRE-20. An osteotomy that ends at 80 mm in a shaft of 28 mm: tip at 136 mm.
 */
export function stemRules(facts: StemFacts): StemCallByRules {
  const judged = STEM_RULES.map((rule) => ({ rule, holds: rule.holds(facts) }));
  const why = judged
    .filter((j) => j.holds === true)
    .map(({ rule: { id, asks, text, source, grade } }) => ({ id, asks, text, source, grade }));
  const settled = (['mandatory', 'wanted', 'may-be-omitted'] as const).find((asks) => why.some((r) => r.asks === asks));
  const open = judged
    .filter((j) => j.holds === null && settled !== 'mandatory')
    .map(({ rule: { id, asks, text } }) => ({ id, asks, text }));
  const waits = settled !== 'mandatory' && open.some((r) => r.asks === 'mandatory');
  return {
    verdict: waits ? 'depends' : (settled ?? (open.length > 0 ? 'depends' : 'no-rule')),
    why,
    open,
    bypass: (facts.weakSpots ?? []).map((spot) => ({
      spot,
      tipAtLeastMm:
        facts.outerDiameterMm === undefined ? null : spot.farEndMm + PAST_IN_DIAMETERS * facts.outerDiameterMm,
    })),
  };
}
