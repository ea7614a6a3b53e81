import { costOf } from './cover/choose-rooms.ts';
import type { Uncovered } from './kit-answer.ts';
import type { KitGroup, KitProblem } from './kit-problem.ts';
import { refsOf, shareOf } from './kit-question.ts';
import { partName } from './part-name.ts';
import type { SetService } from './set-list.ts';
import { byList, indicesOf, type SetMask, within, without } from './set-mask.ts';
import { toldApart } from './told-apart.ts';

interface Why {
  readonly lack: string;
  readonly wouldTake: SetMask | null;
  readonly addition: string | null;
  /** What is said of when it happens, where it is an event; null = found from the knees. */
  readonly when: string | null;
}

interface Kind {
  readonly why: Why;
  weight: number;
  readonly knees: number[];
}

/** Kinds that are told one by one; the rarer ones beyond are told as one. */
const MOST_KINDS = 12;
const OTHER: Why = { lack: 'other reasons, each of them rare', wouldTake: null, addition: null, when: '' };

/**
 * Drawn knees that a room does not cover, by why, most frequent first (KIT-9): what they have in common, what is
 * lacking, and the cheapest sets that would cover them or, where none would, the smallest addition. The shares add up
 * to all that is uncovered.
 */
export function uncoveredIn(problem: KitProblem, room: SetMask): readonly Uncovered[] {
  const kinds = new Map<string, Kind>();
  const covered: number[] = [];
  for (const group of problem.groups) {
    if (group.options.some((o) => within(o, room))) {
      covered.push(...group.knees);
      continue;
    }
    const why = whyNot(problem, group, room);
    const key = [why.lack, why.addition ?? '', why.when ?? ''].join('|');
    const kind = kinds.get(key) ?? { why, weight: 0, knees: [] };
    kind.weight += group.weight;
    kind.knees.push(...group.knees);
    kinds.set(key, kind);
  }
  const total = problem.groups.reduce((sum, g) => sum + g.weight, 0);
  const others = covered.flatMap((i) => problem.knees[i] ?? []);
  const sorted = [...kinds.values()].sort((a, b) => b.weight - a.weight || (a.why.lack < b.why.lack ? -1 : 1));
  return fewKinds(sorted).map(({ why, weight, knees }): Uncovered => {
    const these = knees.flatMap((i) => problem.knees[i] ?? []);
    const when = why.when ?? (these.length > 0 ? toldApart(these, others) : '');
    return {
      share: shareOf(weight, total),
      knees: weight,
      words: inWords(when, why),
      when,
      lack: why.lack,
      wouldTake: why.wouldTake ? refsOf(problem, why.wouldTake) : [],
      addition: why.addition,
    };
  });
}

function fewKinds(sorted: readonly Kind[]): readonly Kind[] {
  if (sorted.length <= MOST_KINDS) return sorted;
  const rare = sorted.slice(MOST_KINDS - 1);
  const weight = rare.reduce((sum, kind) => sum + kind.weight, 0);
  return [...sorted.slice(0, MOST_KINDS - 1), { why: OTHER, weight, knees: rare.flatMap((kind) => kind.knees) }];
}

function inWords(when: string, { lack, addition }: Why): string {
  const what = when ? `${when}: ${lack}` : lack;
  const words = addition ? `${what}; it would take ${addition}` : what;
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const EVENT: Partial<Readonly<Record<SetService, string>>> = {
  spacer: 'unexpected infection',
  'fracture-fixation': 'fracture at removal',
};

/** The option that takes least to complete, or the gap where there is none. */
function whyNot(problem: KitProblem, group: KitGroup, room: SetMask): Why {
  if (group.gap) {
    const { words, addition, service } = group.gap;
    return { lack: words, wouldTake: null, addition, when: (service && EVENT[service]) ?? null };
  }
  const costs = problem.sets.map((s) => s.cost + (s.late ? 1e9 : 0));
  const missing = group.options
    .map((option, i) => ({ sets: without(option, room), parts: group.parts[i] ?? [] }))
    .sort((a, b) => costOf(costs, a.sets) - costOf(costs, b.sets) || byList(a.sets, b.sets))[0];
  if (!missing) throw new Error('A group without options has a gap.');
  const given = indicesOf(missing.sets).flatMap((i) => problem.sets[i]?.set.services ?? []);
  const event = group.services.find((s) => EVENT[s] && given.includes(s));
  return {
    lack: lackOf(problem, missing, room),
    wouldTake: missing.sets,
    addition: null,
    when: event ? (EVENT[event] ?? null) : null,
  };
}

/** "Tibial cones is not in the room (cone, tibia, M)": the sets, and the parts that are lacking for want of them. */
function lackOf(problem: KitProblem, missing: { sets: SetMask; parts: readonly string[] }, room: SetMask): string {
  const holdsPart = (i: number, ref: string) => problem.sets[i]?.set.parts.some((p) => p.ref === ref) === true;
  const here = indicesOf(room);
  const sets = indicesOf(missing.sets).map((i) => {
    const { set, late } = problem.sets[i] as KitProblem['sets'][number];
    const parts = missing.parts.filter((ref) => holdsPart(i, ref) && !here.some((h) => holdsPart(h, ref)));
    const names = [...new Set(parts.map((ref) => kindOf(partName(problem.catalogue, ref))))].join(', ');
    return `${set.name}${late ? ' (too late to order)' : ''}${names ? ` with ${names}` : ''}`;
  });
  return `${sets.join(' and ')} not in the room`;
}

/** A part's name without its size, so that the same lack in many sizes is told once: "insert", "cone". */
const kindOf = (name: string): string => name.replace(/[\s,]*\d.*$/, '');
