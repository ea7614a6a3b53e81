import fc from 'fast-check';
import loadHighs from 'highs';
import { describe, expect, test } from 'vitest';
import { kitProgramme } from '../judge/programme.ts';
import { randomChoice } from '../judge/random-choices.ts';
import { tryEveryRoom } from '../judge/try-every-room.ts';
import { kitCurve } from '../kit-curve.ts';
import { common, countOf, indicesOf, isEmpty, maskOf, NO_SETS, union, within } from '../set-mask.ts';
import { type ChosenRoom, chooseRooms, costOf, coveredBy, type Effort } from './choose-rooms.ts';
import { packCover } from './cover.ts';
import { CriticalRoom } from './critical-room.ts';
import { leastOptions, reduceCover } from './reduce.ts';
import { Room } from './room.ts';

const SHARES = [0.5, 0.8, 0.9, 1];
const SMALL = { sets: 9, groups: 14, options: 4, most: 3 };
const total = (groups: readonly { weight: number }[]) => groups.reduce((sum, g) => sum + g.weight, 0);

function chosen(asked: ReturnType<typeof randomChoice>, need: number, effort: Effort = { seed: 1 }): ChosenRoom {
  const reduced = reduceCover({ ...asked, must: NO_SETS, mustNot: NO_SETS });
  const rooms = chooseRooms(reduced, need, effort);
  for (;;) {
    const step = rooms.next();
    if (step.done) return step.value;
  }
}

describe('the choice of sets', () => {
  test('KIT-5 KIT-6 is the cheapest, and covers most at that cost: judged by trying every room, 200 random choices', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const asked = randomChoice(seed, { ...SMALL, sets: 4 + (seed % 7) });
      const need = Math.ceil(total(asked.groups) * (SHARES[seed % 4] ?? 1));
      const room = chosen(asked, need);
      const { best } = tryEveryRoom({ ...asked, need });
      expect(room.proven).toBe(true);
      expect([room.cost, room.covered, room.leastCost]).toEqual([best?.cost, best?.covered, best?.cost]);
      expect(costOf(asked.costs, room.sets)).toBe(room.cost);
      expect(coveredBy(asked.groups, room.sets)).toBe(room.covered);
    }
  });

  test('KIT-6 costs what HiGHS, a general-purpose solver, finds: 120 random choices', async () => {
    // The package's types are those of a CommonJS module, which it is not when imported.
    const highs = await (loadHighs as unknown as typeof loadHighs.default)();
    for (let seed = 1; seed <= 120; seed++) {
      const asked = randomChoice(1000 + seed, { sets: 9, groups: 12, options: 3, most: 3 });
      const need = Math.ceil(total(asked.groups) * (SHARES[seed % 4] ?? 1));
      const exact = { output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0, random_seed: 1 };
      const { Status, ObjectiveValue } = highs.solve(kitProgramme({ ...asked, need }), exact);
      expect(Status).toBe('Optimal');
      const room = chosen(asked, need);
      expect(room.proven).toBe(true);
      expect(Math.abs(room.cost - ObjectiveValue)).toBeLessThan(1e-6);
    }
  }, 120_000);

  test('KIT-10 every step of the curve is a step that trying every room finds, from nothing to everything', () => {
    for (let seed = 1; seed <= 30; seed++) {
      const asked = randomChoice(500 + seed, SMALL);
      const reduced = reduceCover({ ...asked, must: NO_SETS, mustNot: NO_SETS });
      const steps = kitCurve(reduced, { total: total(asked.groups), seed: 1 });
      let curve: readonly ChosenRoom[] | null = null;
      while (!curve) {
        const step = steps.next();
        if (step.done) curve = step.value;
      }
      // Fewer than a hundred knees: no step is finer than what is passed over.
      const tried = tryEveryRoom({ ...asked, need: 0 }).curve;
      expect(curve.map((c) => [c.cost, c.covered])).toEqual(tried.map((c) => [c.cost, c.covered]));
      expect(curve.every((c) => c.proven)).toBe(true);
    }
  });

  test('cut short, it tells a least cost that is true, and a room that covers enough', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const asked = randomChoice(2000 + seed, { sets: 12, groups: 40, options: 5, most: 4 });
      const need = Math.ceil(0.9 * total(asked.groups));
      const best = tryEveryRoom({ ...asked, need }).best?.cost ?? Number.NaN;
      const reduced = reduceCover({ ...asked, must: NO_SETS, mustNot: NO_SETS });
      for (const progress of chooseRooms(reduced, need, { seed, rounds: 1, nodes: [3, 40, 160][seed % 3] ?? 3 })) {
        expect(progress.room.leastCost).toBeLessThanOrEqual(best + 1e-9);
        expect(progress.room.cost).toBeGreaterThanOrEqual(best - 1e-9);
        expect(coveredBy(asked.groups, progress.room.sets)).toBeGreaterThanOrEqual(need);
      }
      const last = chosen(asked, need, { seed, rounds: 1, nodes: [3, 40, 160][seed % 3] ?? 3 });
      expect(last.leastCost).toBeLessThanOrEqual(best + 1e-9);
      expect(last.cost).toBeGreaterThanOrEqual(best - 1e-9);
    }
  });

  test('the same question gives the same room, byte for byte', () => {
    const asked = randomChoice(7, { sets: 20, groups: 200, options: 4, most: 4 });
    const need = Math.ceil(0.95 * total(asked.groups));
    expect(JSON.stringify(chosen(asked, need))).toBe(JSON.stringify(chosen(asked, need)));
  });
});

describe('making the question small', () => {
  test('changes no answer, with sets that must and must not come', () => {
    for (let seed = 1; seed <= 120; seed++) {
      const asked = randomChoice(3000 + seed, SMALL);
      const must = maskOf(seed % 9);
      const mustNot = union(maskOf((seed + 3) % 9), maskOf((seed + 5) % 9));
      const reduced = reduceCover({ ...asked, must, mustNot });
      const allowed = asked.costs.map((c, i) => (isEmpty(common(mustNot, maskOf(i))) ? c : 1e6));
      const free = allowed.map((c, i) => (isEmpty(common(must, maskOf(i))) ? c : 0));
      const need = Math.ceil(0.6 * (reduced.always + reduced.cover.total));
      const rooms = chooseRooms(reduced, need, { seed: 1 });
      let step = rooms.next();
      while (!step.done) step = rooms.next();
      const { best } = tryEveryRoom({ costs: free, groups: asked.groups, need });
      expect(step.value.cost).toBeCloseTo((best?.cost ?? 0) + costOf(asked.costs, must), 9);
      expect(within(must, step.value.sets)).toBe(true);
      expect(isEmpty(common(step.value.sets, mustNot))).toBe(true);
      expect(reduced.always + reduced.never + reduced.cover.total).toBe(total(asked.groups));
    }
  });

  test('of options only those stay that hold no other one', () => {
    fc.assert(
      fc.property(fc.array(fc.nat({ max: 4095 }), { minLength: 1, maxLength: 20 }), (words) => {
        const options = words.map((w) => [w & 63, w >> 6] as const);
        const least = leastOptions(options);
        for (const o of options) expect(least.some((l) => within(l, o))).toBe(true);
        for (const a of least) for (const b of least) if (a !== b) expect(within(a, b)).toBe(false);
      }),
      { seed: 5, numRuns: 200 },
    );
  });
});

describe('weights kept up to date', () => {
  test('a room after any moves covers what counting anew finds; so do its losses', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), fc.array(fc.nat({ max: 8 }), { maxLength: 25 }), (seed, moves) => {
        const { costs, groups } = randomChoice(seed, SMALL);
        const cover = packCover(costs, groups);
        const room = new Room(cover);
        for (const set of moves) {
          if (room.here[set]) room.leave(set);
          else room.bring(set);
        }
        const here = [...room.here.keys()].filter((i) => room.here[i]);
        const mask = here.reduce((m, i) => union(m, maskOf(i)), NO_SETS);
        expect(room.covered).toBe(coveredBy(groups, mask));
        const full = new CriticalRoom(cover);
        const gone = [...new Set(moves)];
        for (const set of gone) full.leave(set);
        const left = costs.map((_, i) => i).filter((i) => !gone.includes(i));
        const rest = left.reduce((m, i) => union(m, maskOf(i)), NO_SETS);
        expect(full.covered).toBe(coveredBy(groups, rest));
        for (const set of left) {
          const without = indicesOf(rest).filter((i) => i !== set);
          const lost =
            full.covered -
            coveredBy(
              groups,
              without.reduce((m, i) => union(m, maskOf(i)), NO_SETS),
            );
          expect(full.loss[set]).toBe(lost);
        }
        for (const set of gone.toReversed()) full.comeBack(set);
        expect(full.covered).toBe(total(groups));
        expect(countOf(mask)).toBe(here.length);
      }),
      { seed: 11, numRuns: 120 },
    );
  });
});
