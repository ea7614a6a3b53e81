import { traceCanal } from '@gapline/film/proposals/trace-canal.ts';
import { trueCanal } from '@gapline/phantoms/src/canal-walls.ts';
import { chance } from '@gapline/phantoms/src/chance.ts';
import type { Tallies } from './score.ts';
import type { VariedFilm } from './varied-films.ts';

/** A wall may be off by 1 mm. */
const ALLOWED_MM = 1;

type Level = ReturnType<typeof trueCanal>[number];
type Wall = keyof Level;
type XY = { readonly x: number; readonly y: number };

const WALLS: readonly Wall[] = ['outerA', 'innerA', 'innerB', 'outerB'];
const OPPOSITE: Readonly<Record<Wall, Wall>> = {
  outerA: 'outerB',
  innerA: 'innerB',
  innerB: 'innerA',
  outerB: 'outerA',
};

/** Both canals of the operated leg, pointed at with an error of 2.5 mm at either end; every true level is held against the level next to it. */
export function judgeCanals(one: VariedFilm, tallies: Tallies): void {
  const c = chance(one.seed, `pointing at the canal ${one.view}`);
  for (const bone of ['femur', 'tibia'] as const) {
    const truth = trueCanal(one.scene, one.standing, bone);
    const [first, last] = [truth[0], truth.at(-1)];
    if (!first || !last || truth.length < 5) continue;
    const hint = (l: Level) => {
      const off = () => c.normal(0, 2.5, 2) / one.mmPerPx;
      return { frame: 'film', x: (l.innerA.x + l.innerB.x) / 2 + off(), y: (l.innerA.y + l.innerB.y) / 2 } as const;
    };
    const found = traceCanal(one.film, {
      near: hint(first),
      far: hint(last),
      mmPerPx: one.scene.beam.spacingMm,
      everyMm: 1,
    });
    const name = `${bone} ${one.view === 'lateral' ? 'from the side' : 'from in front'}`;
    if (!found.ok) {
      for (const _ of truth) for (const what of LINES) tallies.add(`${name}, ${what}`, null);
      continue;
    }
    for (const t of truth) judgeLevel(t, found.value.levels, { one, name, tallies });
  }
}

const LINES = ['inner wall', 'outer wall', 'canal width'] as const;

type Found = readonly { readonly level: Required<Level>; readonly trust: { readonly confident: boolean } }[];

function judgeLevel(
  truth: Level,
  found: Found,
  { one, name, tallies }: { one: VariedFilm; name: string; tallies: Tallies },
): void {
  const middle = { x: (truth.innerA.x + truth.innerB.x) / 2, y: (truth.innerA.y + truth.innerB.y) / 2 };
  const axis = unit({ x: truth.innerB.y - truth.innerA.y, y: truth.innerA.x - truth.innerB.x });
  const crossed = (l: Required<Level>) =>
    Math.hypot(l.innerA.x - truth.innerA.x, l.innerA.y - truth.innerA.y) >
    Math.hypot(l.innerB.x - truth.innerA.x, l.innerB.y - truth.innerA.y);
  const errors = WALLS.flatMap((wall) => {
    const at = truth[wall];
    const other = truth[OPPOSITE[wall]];
    if (!at || !other) return [];
    const outwards = unit({ x: at.x - other.x, y: at.y - other.y });
    // Walls run along the shaft: each is compared where its own wall passes this level.
    const level = nearestLevel(found, at, { axis, mine: (l) => l[crossed(l) ? OPPOSITE[wall] : wall] });
    if (!level) return [];
    const mine = level.level[crossed(level.level) ? OPPOSITE[wall] : wall];
    return [{ wall, off: (mine.x - at.x) * outwards.x + (mine.y - at.y) * outwards.y }];
  });
  const own = nearestLevel(found, middle, {
    axis,
    mine: (l) => ({ x: (l.innerA.x + l.innerB.x) / 2, y: (l.innerA.y + l.innerB.y) / 2 }),
  });
  const confident = own?.trust.confident ?? false;
  const wrong = errors.some((e) => Math.abs(e.off) * one.mmPerPx > ALLOWED_MM);
  const add = (what: string, px: number) =>
    tallies.add(`${name}, ${what}`, { px, mm: px * one.mmPerPx, confident, wrong });
  const inner = errors.filter((e) => e.wall.startsWith('inner'));
  for (const e of errors) add(e.wall.startsWith('inner') ? 'inner wall' : 'outer wall', Math.abs(e.off));
  add('canal width', Math.abs(inner.reduce((s, e) => s + e.off, 0)));
}

const unit = ({ x, y }: XY): XY => ({ x: x / Math.hypot(x, y), y: y / Math.hypot(x, y) });

function nearestLevel(
  found: Found,
  at: XY,
  { axis, mine }: { axis: XY; mine: (l: Required<Level>) => XY },
): Found[number] | null {
  let best: { level: Found[number]; away: number } | null = null;
  for (const level of found) {
    const p = mine(level.level);
    const away = Math.abs((p.x - at.x) * axis.x + (p.y - at.y) * axis.y);
    if (!best || away < best.away) best = { level, away };
  }
  return best?.level ?? null;
}
