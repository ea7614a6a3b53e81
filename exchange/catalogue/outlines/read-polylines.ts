import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import type { XY } from './flatten.ts';

const MEND = 'Write { "unit": "mm", "lines": [[[x, y], [x, y], ...], ...] }, or the list of lines alone.';
const fault = (code: string, message: string) => cannot({ code, message, mend: MEND });

const isPoint = (v: unknown): v is XY =>
  Array.isArray(v) && v.length === 2 && v.every((x) => typeof x === 'number' && Number.isFinite(x));
const isLine = (v: unknown): v is readonly XY[] => Array.isArray(v) && v.length > 1 && v.every(isPoint);

/** Polylines in JSON: a list of lines of `[x, y]` pairs, by itself or under `lines` beside `unit: "mm"`. x right, y up. */
export function readPolylines(text: string): Outcome<readonly (readonly XY[])[]> {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  } catch (error) {
    return fault('not-json', `This is not JSON: ${(error as Error).message.replace(/\s+/g, ' ')}`);
  }
  const held = typeof parsed === 'object' && parsed !== null && !Array.isArray(parsed) ? parsed : { lines: parsed };
  const { unit = 'mm', lines } = held as { readonly unit?: unknown; readonly lines?: unknown };
  if (unit !== 'mm') return fault('outline-unit', `The unit is ${JSON.stringify(unit)}, not mm.`);
  if (!Array.isArray(lines) || lines.length === 0 || !lines.every(isLine))
    return fault('outline-shape', 'The lines are no lists of pairs of finite numbers.');
  return ok(lines);
}
