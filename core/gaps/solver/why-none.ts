import type { Reason } from '../../measure/outcome.ts';
import type { Infeasible } from '../construct.ts';
import type { Bounds } from './bounds.ts';
import type { Question } from './question.ts';
import { Search } from './search.ts';
import { Tables } from './tables.ts';
import { constructOf, judge } from './to-construct.ts';
import { NEVER } from './whole-parts.ts';

/** A limit that can be eased by millimetres. */
interface Easing {
  readonly key: 'cementMm' | 'cutMm' | 'overhangMm' | 'flangeGapMm' | 'openingEaseMm' | 'gapDifferenceEaseMm';
  readonly code: string;
  readonly what: string;
  readonly mend: string;
}

const EASINGS: readonly Easing[] = [
  {
    key: 'cementMm',
    code: 'limit-cement',
    what: 'depth of cement',
    mend: 'Build up with thicker augments, a cone or a graft.',
  },
  {
    key: 'cutMm',
    code: 'limit-cut',
    what: 'bone that may be cut',
    mend: 'Take a system with thinner components or steps.',
  },
  { key: 'overhangMm', code: 'limit-overhang', what: 'overhang', mend: 'Take a system with smaller sizes.' },
  {
    key: 'flangeGapMm',
    code: 'limit-flange',
    what: 'gap at the flange',
    mend: 'Take a larger offset or another size.',
  },
  {
    key: 'openingEaseMm',
    code: 'limit-opening',
    what: 'opening in extension that the constraint accepts',
    mend: 'Take a system with more constraint or thicker inserts.',
  },
  {
    key: 'gapDifferenceEaseMm',
    code: 'limit-gap-difference',
    what: 'flexion gap above extension gap that the constraint accepts',
    mend: 'Take a system with more constraint, larger sizes or posterior augments.',
  },
];

/** Demands that either hold or do not. */
const DEMANDS: readonly {
  readonly code: string;
  readonly message: string;
  readonly mend: string;
  readonly without: Partial<Bounds>;
}[] = [
  {
    code: 'limit-stem',
    message: 'A stem is demanded and none of the catalogue passes the canal.',
    mend: 'Measure the canal again, or take a system with thinner stems.',
    without: { stemsDemanded: false, zonesDemanded: false },
  },
  {
    code: 'limit-zones',
    message: 'The bone loss demands two solid zones of fixation, and the catalogue gives only one.',
    mend: 'Take a system with cones or sleeves, or plan a graft.',
    without: { zonesDemanded: false },
  },
  {
    code: 'limit-constraint',
    message: 'The ligaments demand more constraint than the catalogue joins to these sizes.',
    mend: 'Take a system with that level of constraint.',
    without: { leastRank: 0 },
  },
  {
    code: 'limit-polyethylene',
    message: 'Every insert that fits has less polyethylene than is accepted.',
    mend: 'Lower the tibia, or accept thinner polyethylene knowingly.',
    without: { leastPolyethyleneMm: Number.NEGATIVE_INFINITY },
  },
];

/** Widest easing that is tried, mm, and how finely the smallest one is told, mm. */
const WIDEST_MM = 60;
const FINE_MM = 0.01;

const possible = (question: Question, bounds: Bounds): boolean =>
  new Search(new Tables({ ...question, bounds }), {}, { enough: NEVER }).run() !== null;

/** Smallest easing of one limit that leaves a construct, rounded up to 0.01 mm; null where no easing does. */
function smallestEasing(question: Question, key: Easing['key']): number | null {
  const eased = (by: number): Bounds => ({ ...question.bounds, [key]: question.bounds[key] + by });
  if (!possible(question, eased(WIDEST_MM))) return null;
  let low = 0;
  let high = Math.round(WIDEST_MM / FINE_MM);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (possible(question, eased(middle * FINE_MM))) high = middle;
    else low = middle;
  }
  return high * FINE_MM;
}

function nearest(question: Question, bounds: Bounds) {
  const tables = new Tables({ ...question, bounds });
  const found = new Search(tables).run();
  if (!found) return null;
  const knee = { state: question.state, catalogue: question.prepared.catalogue };
  return judge(constructOf(found, tables), knee, { prices: question.prices, differs: 'breaks a limit' });
}

/**
 * Why no construct keeps the limits (GAP-22): each limit that alone stands in the way, with the smallest easing of it
 * that would leave one; where no single limit does, all of those that the nearest construct breaks together.
 */
export function whyNone(question: Question): Infeasible {
  const clashes: (Reason & { readonly byMm?: number })[] = [];
  let best: ReturnType<typeof nearest> = null;
  const offer = (bounds: Bounds) => {
    const next = nearest(question, bounds);
    if (next && (!best || next.cost < best.cost - 1e-9)) best = next;
  };
  for (const { key, code, what, mend } of EASINGS) {
    const byMm = smallestEasing(question, key);
    if (byMm === null) continue;
    clashes.push({
      code,
      message: `The limit of the ${what} excludes every construct; ${byMm.toFixed(2)} mm more would leave one.`,
      mend,
      byMm,
    });
    offer({ ...question.bounds, [key]: question.bounds[key] + byMm });
  }
  for (const { code, message, mend, without } of DEMANDS) {
    const bounds = { ...question.bounds, ...without };
    if (!possible(question, bounds)) continue;
    clashes.push({ code, message, mend });
    offer(bounds);
  }
  if (clashes.length > 0) return { clashes, nearest: best };
  return together(question);
}

/** The limits of which each alone stands in the way, by name and without how far: told while a hand moves a component. */
export const limitsInTheWay = (question: Question): readonly { readonly code: string; readonly what: string }[] => [
  ...EASINGS.filter(({ key }) =>
    possible(question, { ...question.bounds, [key]: question.bounds[key] + WIDEST_MM }),
  ).map(({ code, what }) => ({ code, what })),
  ...DEMANDS.filter(({ without }) => possible(question, { ...question.bounds, ...without })).map(
    ({ code, message }) => ({
      code,
      what: message,
    }),
  ),
];

/** No single limit is at fault: ease all, tighten each again as far as it goes, and name what stays eased. */
function together(question: Question): Infeasible {
  let bounds: Bounds = { ...question.bounds, ...Object.assign({}, ...DEMANDS.map((d) => d.without)) };
  for (const { key } of EASINGS) bounds = { ...bounds, [key]: bounds[key] + WIDEST_MM };
  if (!possible(question, bounds))
    return {
      clashes: [
        {
          code: 'limit-compatibility',
          message: 'The catalogue joins no femur, insert and tray for this side.',
          field: 'compatibility',
          mend: 'Check the compatibility tables and the sides of the femurs.',
        },
      ],
      nearest: null,
    };
  const clashes: (Reason & { readonly byMm?: number })[] = [];
  for (const { code, message, mend, without } of DEMANDS) {
    const kept = Object.fromEntries(Object.keys(without).map((k) => [k, question.bounds[k as keyof Bounds]]));
    const strict: Bounds = { ...bounds, ...kept };
    if (possible(question, strict)) bounds = strict;
    else clashes.push({ code, message, mend });
  }
  for (const { key, code, what, mend } of EASINGS) {
    const strict: Bounds = { ...bounds, [key]: question.bounds[key] };
    const byMm = possible(question, strict) ? 0 : smallestEasing({ ...question, bounds: strict }, key);
    bounds = { ...strict, [key]: strict[key] + (byMm ?? WIDEST_MM) };
    if (byMm !== 0)
      clashes.push({
        code,
        message: `With the other limits named here, the ${what} would need ${(byMm ?? WIDEST_MM).toFixed(2)} mm more.`,
        mend,
        byMm: byMm ?? WIDEST_MM,
      });
  }
  return { clashes, nearest: nearest(question, bounds) };
}
