import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import type { CanalLevel, CanalTrace } from '@gapline/core/stems/canal-trace.ts';
import type { Wall } from '../film/trace-canal.ts';
import type { Place } from '../film/viewport.ts';
import { onFilm } from './marking.ts';

/** Which canal on which film. */
export interface CanalName {
  readonly bone: CanalTrace['bone'];
  readonly film: string;
}

export const traceOf = (file: CaseFile, name: CanalName): CanalTrace | undefined =>
  file.canals?.find((t) => t.bone === name.bone && t.film === name.film);

const rowOf = ({ innerA, innerB }: CanalLevel): number => (innerA.y + innerB.y) / 2;

/** From the joint outwards: films stand upright, so up the film in a femur and down it in a tibia. */
const outwards = (bone: CanalTrace['bone'], levels: readonly CanalLevel[]): readonly CanalLevel[] =>
  levels.toSorted((a, b) => (bone === 'femur' ? rowOf(b) - rowOf(a) : rowOf(a) - rowOf(b)));

/** The case's canals with the levels of one of them exchanged; without levels it goes. */
function setLevels(file: CaseFile, name: CanalName, levels: readonly CanalLevel[]): Edit {
  const all = file.canals ?? [];
  const before = traceOf(file, name);
  const made: CanalTrace = { ...before, bone: name.bone, film: name.film, levels: outwards(name.bone, levels) };
  const changed = before ? all.map((t) => (t === before ? made : t)) : [...all, made];
  const kept = changed.filter((t) => t.levels.length > 0);
  return { kind: 'set', field: '/canals', value: kept.length > 0 ? kept : null };
}

const rounded = (level: CanalLevel): CanalLevel => ({
  innerA: onFilm(level.innerA),
  innerB: onFilm(level.innerB),
  ...(level.outerA && { outerA: onFilm(level.outerA) }),
  ...(level.outerB && { outerB: onFilm(level.outerB) }),
});

/** A canal with all its levels at once, in place of what was traced there. */
export const putCanal = (file: CaseFile, name: CanalName, levels: readonly CanalLevel[]): Edit =>
  setLevels(file, name, levels.map(rounded));

export const addLevel = (file: CaseFile, name: CanalName, level: CanalLevel): Edit =>
  setLevels(file, name, [...(traceOf(file, name)?.levels ?? []), rounded(level)]);

export const removeLevel = (file: CaseFile, name: CanalName, index: number): Edit =>
  setLevels(file, name, traceOf(file, name)?.levels.filter((_, i) => i !== index) ?? []);

/** One wall of one level, moved. Levels keep their places in the list, so that a hand keeps hold of its point. */
export function moveWall(file: CaseFile, name: CanalName, of: { level: number; wall: Wall; to: Place }): Edit {
  const canals = (file.canals ?? []).map((trace) =>
    trace.bone === name.bone && trace.film === name.film
      ? { ...trace, levels: trace.levels.map((l, i) => (i === of.level ? { ...l, [of.wall]: onFilm(of.to) } : l)) }
      : trace,
  );
  return { kind: 'set', field: '/canals', value: canals };
}

/** Spacing of the levels that are asked for, mm. */
export const LEVEL_STEP_MM = 20;

/**
 * Film row of the next level to press, one step beyond the outermost one; null where there is none yet, or where the
 * film has no scale. `mmPerPx` along the columns.
 */
export function nextRow(trace: CanalTrace | undefined, mmPerPx: number | null): number | null {
  const last = trace?.levels.at(-1);
  if (!trace || !last || mmPerPx === null) return null;
  return rowOf(last) + (trace.bone === 'femur' ? -1 : 1) * (LEVEL_STEP_MM / mmPerPx);
}
