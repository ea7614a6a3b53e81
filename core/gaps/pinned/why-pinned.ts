import type { Infeasible, SolvedConstruct } from '../construct.ts';
import { asked, DEFAULT_SETTINGS, type SolverQuestion, solve } from '../solve.ts';
import { Search } from '../solver/search.ts';
import { Tables } from '../solver/tables.ts';
import { NEVER } from '../solver/whole-parts.ts';
import { whyNone } from '../solver/why-none.ts';
import { pinInWords } from './pin-of-construct.ts';
import { isLengthPin, type LengthPin, PINS, type PinId, type Pinned, pinsIn, released } from './pinned.ts';

type Asked = SolverQuestion & { readonly pinned: Pinned };
type Clash = Infeasible['clashes'][number];

/** Whether any construct keeps the limits and what is fixed. */
export const goes = (question: SolverQuestion): boolean =>
  new Search(new Tables(asked(question)), {}, { enough: NEVER }).run() !== null;

/** Tenths of a millimetre: as finely as a hand fixes a length. */
export const TENTHS = 10;
/** Farthest that a length which goes is looked for, mm. */
const FARTHEST_MM = 60;

/**
 * Why what is fixed by hand leaves no construct, while there is one without it (GAP-42): each pin that alone stands in
 * the way, for a length with the nearest value that goes; where none does alone, those that do together, found by
 * fixing one after the other. With a length fixed also the limits that it runs into.
 */
export function whyPinned(question: Asked): Infeasible {
  const { pinned } = question;
  const alone = pinsIn(pinned).filter((id) => goes({ ...question, pinned: released(pinned, id) }));
  const blamed = alone.length > 0 ? alone : together(question);
  const clashes = blamed.map((id) => clashOf(id, question, alone.length > 0));
  const limits = blamed.some(isLengthPin) ? whyNone(asked(question)).clashes.filter((c) => c.code !== NO_PARTS) : [];
  return { clashes: [...clashes, ...limits], nearest: nearestOf(question, alone.length > 0 ? alone : null) };
}

/** Said of a catalogue that is too small; here it is the pins that made it small. */
const NO_PARTS = 'limit-compatibility';

/** Pins that cannot be added to those before them. */
function together(question: Asked): PinId[] {
  let kept: Pinned = {};
  const out: PinId[] = [];
  for (const id of pinsIn(question.pinned)) {
    const more = { ...kept, [id]: question.pinned[id] };
    if (goes({ ...question, pinned: more })) kept = more;
    else out.push(id);
  }
  return out;
}

function clashOf(id: PinId, question: Asked, isAlone: boolean): Clash {
  const label = PINS.find((p) => p.id === id)?.label ?? id;
  const fixed = `${label}, fixed by hand: ${pinInWords(id, question.pinned, question.catalogue)}`;
  const said = isAlone
    ? 'With it no construct keeps the limits; released, one does.'
    : 'With what else is fixed no construct keeps the limits.';
  const base = { code: `pin-${id}`, field: `settings.pinned.${id}`, message: `${fixed}. ${said}` };
  const nearest = isAlone && isLengthPin(id) ? nearestLength(question, id) : null;
  if (!nearest) return { ...base, mend: 'Release it.' };
  const at = pinInWords(id, { [id]: nearest.atMm }, question.catalogue);
  return { ...base, mend: `Release it, or set it to the nearest that goes: ${at}.`, byMm: nearest.byMm };
}

/** The nearest value of a length that leaves a construct, in tenths of mm, the lower of two equally near; null = none. */
function nearestLength(question: Asked, id: LengthPin): { readonly atMm: number; readonly byMm: number } | null {
  const from = Math.round((question.pinned[id] ?? 0) * TENTHS);
  const does = (tenths: number): boolean =>
    goes({ ...question, pinned: { ...question.pinned, [id]: (from + tenths) / TENTHS } });
  for (let mm = 1; mm <= FARTHEST_MM; mm++) {
    const ways = [-1, 1].filter((way) => does(way * mm * TENTHS));
    if (ways.length === 0) continue;
    for (let tenths = (mm - 1) * TENTHS + 1; tenths <= mm * TENTHS; tenths++)
      for (const way of ways)
        if (does(way * tenths)) return { atMm: (from + way * tenths) / TENTHS, byMm: tenths / TENTHS };
  }
  return null;
}

/** The cheapest construct that is left when one pin is released, or all of them. */
function nearestOf(question: Asked, alone: readonly PinId[] | null): SolvedConstruct | null {
  const settings = { ...(question.settings ?? DEFAULT_SETTINGS), alternatives: 0 };
  const tries = alone ? alone.map((id) => released(question.pinned, id)) : [{}];
  let best: SolvedConstruct | null = null;
  for (const pinned of tries) {
    const next = solve({ ...question, settings, pinned });
    if (next.kind === 'solved' && (!best || next.answer.best.cost < best.cost - 1e-9)) best = next.answer.best;
  }
  return best && { ...best, differs: 'not as fixed by hand' };
}
