import type { Measurement } from './measurement.ts';

/** The line of that name, of one side where both knees are measured. Throws when there is none: for tests and worked examples. */
export function lineOf(lines: readonly Measurement[], id: string, side?: Measurement['side']): Measurement {
  const found = lines.find((m) => m.id === id && (side === undefined || m.side === side));
  if (!found) throw new Error(`no measurement ${id}`);
  return found;
}

/** Its value. Throws with the reason when it has none. */
export function measuredValue(lines: readonly Measurement[], id: string, side?: Measurement['side']): number {
  const { value, missing, refused } = lineOf(lines, id, side);
  if (value === null) throw new Error(`${id}: ${refused?.code ?? `missing ${missing?.join(', ')}`}`);
  return value;
}

export const flagsOf = (lines: readonly Measurement[], id: string, side?: Measurement['side']): readonly string[] =>
  lineOf(lines, id, side).flags.map((f) => f.code);
