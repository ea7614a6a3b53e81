import type { KitGap, KitGroup } from './kit-problem.ts';
import type { KneeOption } from './knee-options.ts';
import type { SetService } from './set-list.ts';

/** Knees with equal options and equal services, in the order in which the first of each came. */
export class KneeGroups {
  private readonly byKey = new Map<string, KitGroup & { weight: number; knees: number[] }>();

  add(knee: number, of: { services: readonly SetService[]; options: readonly KneeOption[]; gap: KitGap | null }): void {
    const key = [of.services.join(), of.options.map((o) => o.sets.join()).join(' '), of.gap?.words ?? ''].join('|');
    const known = this.byKey.get(key);
    if (known) {
      known.weight++;
      known.knees.push(knee);
      return;
    }
    this.byKey.set(key, {
      weight: 1,
      options: of.options.map((o) => o.sets),
      parts: of.options.map((o) => [...o.pieces.keys()]),
      services: of.services,
      knees: [knee],
      ...(of.gap ? { gap: of.gap } : {}),
    });
  }

  list(): readonly KitGroup[] {
    return [...this.byKey.values()];
  }
}
