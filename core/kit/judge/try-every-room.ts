import type { ChoiceAsked } from './programme.ts';

/** A room as trying everything finds it. */
export interface TriedRoom {
  readonly cost: number;
  readonly covered: number;
}

/**
 * Every room there is, one after the other: the cheapest that covers enough, and of those at that cost the one that covers most; and every step
 * of the curve. Shares no code with the choice that it judges. For up to about 14 sets.
 */
export function tryEveryRoom({ costs, groups, need }: ChoiceAsked): {
  readonly best: TriedRoom | null;
  readonly curve: readonly TriedRoom[];
} {
  const lists = groups.map(({ weight, options }) => ({
    weight,
    options: options.map(([low, high]) => {
      const sets: number[] = [];
      for (let set = 0; set < costs.length; set++)
        if (Math.floor((set < 30 ? low : high) / 2 ** (set % 30)) % 2 === 1) sets.push(set);
      return sets;
    }),
  }));
  const rooms: TriedRoom[] = [];
  for (let room = 0; room < 2 ** costs.length; room++) {
    const here = costs.map((_, set) => Math.floor(room / 2 ** set) % 2 === 1);
    const cost = costs.reduce((sum, c, set) => sum + (here[set] ? c : 0), 0);
    const covered = lists.reduce(
      (sum, { weight, options }) => sum + (options.some((o) => o.every((set) => here[set])) ? weight : 0),
      0,
    );
    rooms.push({ cost, covered });
  }
  rooms.sort((a, b) => a.cost - b.cost || b.covered - a.covered);
  const curve: TriedRoom[] = [];
  for (const room of rooms) if (room.covered > (curve.at(-1)?.covered ?? -1)) curve.push(room);
  return { best: curve.find((room) => room.covered >= need) ?? null, curve };
}
