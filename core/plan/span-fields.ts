import { ZONES } from '../failure/lucent-lines.ts';
import { SPAN_COMPONENTS, SPAN_KINDS } from '../limb/interface-span.ts';
import { isListOf, isNumber, isRecordOf, isText, isWord } from './accepts.ts';
import { value } from './field-kinds.ts';

const isPoint = isRecordOf({ x: isNumber(-100_000, 100_000), y: isNumber(-100_000, 100_000) });

const isSpan = isRecordOf(
  {
    id: isText(100),
    kind: isWord(SPAN_KINDS),
    component: isWord(SPAN_COMPONENTS),
    zone: (v) => Number.isInteger(v) && isNumber(1, 7)(v),
    film: isText(200),
    from: isPoint,
    to: isPoint,
  },
  { sdMm: isNumber(0.01, 20), by: isText(200) },
);

/** The zone must be one that its component has. */
const hasItsZone = (v: unknown): boolean => {
  const { component, zone } = v as { component: keyof typeof ZONES; zone: number };
  return zone <= ZONES[component];
};

/** Lucent lines and cement mantles marked on films, as an edit may set them. */
export const INTERFACE_SPANS = value(
  'Lucent lines and cement mantles on films',
  'a list of widths with kind, component, zone, film and two edges',
  isListOf((v) => isSpan(v) && hasItsZone(v), 500),
);
