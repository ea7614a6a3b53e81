import type { BoneClass } from './bone-class.ts';
import { type Factor, factorsOf, knownDefect, tellsOfLoss } from './class-factors.ts';
import { classRank } from './class-worse.ts';
import type { MapOfBone } from './map-of-bone.ts';
import { type DefectOfBone, proposeBoneClass } from './propose-class.ts';

/** A field of the map that is not known and could change the class. */
export interface MissingOfClass {
  readonly what: string;
  readonly fields: readonly string[];
  /** "3 if the flare is gone", or that it counts only together with other missing fields. */
  readonly wouldChange: string;
}

/** Class of bone loss proposed from the map, as far as the map goes (BONE-5). */
export interface ClassFromMap {
  /** What the known fields prove, every missing one at its best; null = the map says nothing of any loss yet. */
  readonly proposed: BoneClass | null;
  /** Worst class that the missing fields leave open. */
  readonly atMost: BoneClass;
  /** What drives the proposal. */
  readonly reasons: readonly string[];
  readonly missing: readonly MissingOfClass[];
  /** One line, e.g. "2A, or 2B if the lateral side is more than 5 mm deep". */
  readonly words: string;
  /** What another rule of the trade makes of the same map; null = nothing else. */
  readonly otherReading: { readonly boneClass: BoneClass; readonly why: string } | null;
}

/**
 * Proposes the class of one bone from its map (BONE-1, BONE-2) without filling in what is not known (BONE-5): the class that the known
 * fields prove, the worst one that the missing fields allow, and for each of these what it would change. More loss never lowers
 * the class, so that the worst class has every missing field at its worst; whether a field counts only together with others is
 * found by putting the combinations of the others to `proposeBoneClass`.
 *
 * Depth mm beyond the resection plane, share % of the side's surface. It stays a proposal: the surgeon's class stands beside it and is
 * never overwritten; where none is stated yet, a person accepts the proposal before anything is planned with it.
 *
 * Example: 7 mm medially, 30 % unsupported, nothing known laterally: 2A, or 2B if the lateral side is more than 5 mm deep ...
 */
export function classFromMap(m: MapOfBone): ClassFromMap {
  const known = knownDefect(m);
  const factors = factorsOf(m);
  const proved = proposeBoneClass(known);
  const says = tellsOfLoss(m) || proved.boneClass === '3';
  const missing = factors.flatMap((f, i) => whatItChanges(f, { known, others: factors.filter((_, j) => j !== i) }));
  return {
    proposed: says ? proved.boneClass : null,
    atMost: classOf(factors.reduce(atItsWorst, known)),
    reasons: says ? proved.reasons : [],
    missing,
    words: says
      ? inWords(proved.boneClass, alone(known, factors))
      : 'Not known: nothing of any loss is entered or drawn.',
    otherReading: says ? otherReading(known, proved.boneClass, factors) : null,
  };
}

const classOf = (d: DefectOfBone): BoneClass => proposeBoneClass(d).boneClass;

/** A missing field as bad as it may be. */
const atItsWorst = (d: DefectOfBone, f: Factor): DefectOfBone => f.levels.at(-1)?.put(d) ?? d;

/** The bone under every combination of the missing fields. */
function everyWorld(known: DefectOfBone, factors: readonly Factor[]): readonly DefectOfBone[] {
  return factors.reduce<readonly DefectOfBone[]>(
    (worlds, f) => worlds.flatMap((w) => [w, ...f.levels.map((level) => level.put(w))]),
    [known],
  );
}

/** Classes that one missing field reaches by itself, each with its condition: the mildest condition of each class. */
function alone(known: DefectOfBone, factors: readonly Factor[]): readonly { to: BoneClass; when: string }[] {
  return factors.flatMap((f) => {
    let reached = classOf(known);
    return f.levels.flatMap(({ put, when }) => {
      const to = classOf(put(known));
      if (classRank(to) <= classRank(reached)) return [];
      reached = to;
      return [{ to, when }];
    });
  });
}

function whatItChanges(
  f: Factor,
  { known, others }: { readonly known: DefectOfBone; readonly others: readonly Factor[] },
): readonly MissingOfClass[] {
  if (classOf(known) === '3') return [];
  const itself = alone(known, [f]);
  const { what, fields } = f;
  if (itself.length > 0)
    return [{ what, fields, wouldChange: itself.map(({ to, when }) => `${to} if ${when}`).join('; ') }];
  const matters = everyWorld(known, others).some((w) => f.levels.some(({ put }) => classOf(put(w)) !== classOf(w)));
  return matters ? [{ what, fields, wouldChange: 'the class, only together with other missing fields' }] : [];
}

function inWords(proved: BoneClass, reached: readonly { to: BoneClass; when: string }[]): string {
  const classes = [...new Set(reached.map((r) => r.to))].sort((a, b) => classRank(a) - classRank(b));
  const ors = classes.map((c) => {
    const when = reached.filter((r) => r.to === c).map((r) => r.when);
    return `, or ${c} if ${when.join(' or ')}`;
  });
  return proved + ors.join('');
}

/** Depth under which a loss with an intact metaphysis counts as type 1 in the trade, mm (BONE-6). */
export const TYPE_1_BELOW_MM = 10;

/** Where depth alone drives type 2 and stays under 10 mm with the flare known to be intact, common practice says type 1 (BONE-6). */
function otherReading(
  known: DefectOfBone,
  proved: BoneClass,
  factors: readonly Factor[],
): ClassFromMap['otherReading'] {
  if (proved !== '2A' && proved !== '2B') return null;
  const flareKnown = known.flareIntact && !factors.some((f) => f.kind === 'flare');
  const shallow = [known.medial, known.lateral].every((s) => s.depthMm < TYPE_1_BELOW_MM && !s.flareShort);
  if (!flareKnown || !shallow) return null;
  if (classOf({ ...known, medial: { ...known.medial, depthMm: 0 }, lateral: { ...known.lateral, depthMm: 0 } }) !== '1')
    return null;
  return {
    boneClass: '1',
    why: 'by common practice a loss under 10 mm with an intact metaphysis is type 1; the 5 mm come from a treatment algorithm (Rosso 2019), not from the class',
  };
}

/** How the surgeon's class stands to the proposed one. */
export type ClassStanding = 'not-stated' | 'nothing-proposed' | 'same' | 'possible' | 'milder' | 'worse';

/**
 * The stated class beside the proposal (BONE-5): `same`, `possible` (the missing fields could make it so), `milder` than what the map
 * proves, `worse` than what it allows. Never a reason to overwrite either.
 */
export function compareClass(stated: BoneClass | undefined, { proposed, atMost }: ClassFromMap): ClassStanding {
  if (stated === undefined) return 'not-stated';
  if (proposed === null) return 'nothing-proposed';
  if (stated === proposed) return 'same';
  if (classRank(stated) < classRank(proposed)) return 'milder';
  return classRank(stated) <= classRank(atMost) ? 'possible' : 'worse';
}
