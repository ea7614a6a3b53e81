import type { CanalSection } from './straight-stem.ts';

const TOUCH_MM = 1e-9;

/** The canal at one height, straight between its sections; null outside of what was traced. */
export function canalAt(sections: readonly CanalSection[], zMm: number): CanalSection | null {
  const after = sections.findIndex((s) => s.zMm >= zMm - TOUCH_MM);
  const b = sections[after];
  if (!b) return null;
  if (Math.abs(b.zMm - zMm) <= TOUCH_MM) return { ...b, zMm };
  const a = sections[after - 1];
  if (!a) return null;
  const part = (zMm - a.zMm) / (b.zMm - a.zMm);
  const mix = (x: number, y: number) => x + part * (y - x);
  return { zMm, lowMm: mix(a.lowMm, b.lowMm), highMm: mix(a.highMm, b.highMm) };
}

/** The canal between two heights, its end sections cut in where needed; only what was traced, so it may be shorter or empty. */
export function canalSpan(sections: readonly CanalSection[], fromMm: number, toMm: number): readonly CanalSection[] {
  if (!(toMm >= fromMm)) return [];
  const inside = sections.filter((s) => s.zMm > fromMm + TOUCH_MM && s.zMm < toMm - TOUCH_MM);
  const first = canalAt(sections, fromMm);
  const last = toMm > fromMm + TOUCH_MM ? canalAt(sections, toMm) : null;
  return [...(first ? [first] : []), ...inside, ...(last ? [last] : [])];
}

/** The canal with sections at most `stepMm` apart, more cut in between; the walls stay where they were. */
export function canalFiner(sections: readonly CanalSection[], stepMm: number): readonly CanalSection[] {
  return sections.flatMap((b, i) => {
    const a = sections[i - 1];
    if (!a) return [b];
    const parts = Math.max(1, Math.ceil((b.zMm - a.zMm) / stepMm - TOUCH_MM));
    return Array.from({ length: parts }, (_, k) => {
      const t = (k + 1) / parts;
      const mix = (x: number, y: number) => (k === parts - 1 ? y : x + t * (y - x));
      return { zMm: mix(a.zMm, b.zMm), lowMm: mix(a.lowMm, b.lowMm), highMm: mix(a.highMm, b.highMm) };
    });
  });
}
