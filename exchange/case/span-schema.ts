import { SPAN_COMPONENTS, SPAN_KINDS } from '@gapline/core/limb/interface-span.ts';
import Type from 'typebox';
import { closed, maybe, text, words } from './schema-words.ts';

const point = Type.Object({ x: Type.Number(), y: Type.Number() }, closed);

/** A lucent line or a cement mantle marked across an interface on one film. */
export const interfaceSpan = Type.Object(
  {
    id: text(),
    kind: words(SPAN_KINDS),
    component: words(SPAN_COMPONENTS),
    zone: Type.Integer({ minimum: 1, maximum: 7, description: 'Counted from 1, as in the charts of lucent lines.' }),
    film: text('`id` of the film.'),
    from: point,
    to: point,
    sdMm: maybe(Type.Number({ exclusiveMinimum: 0, description: 'Standard deviation of marking one edge, mm.' })),
    by: maybe(text()),
  },
  { ...closed, description: 'Its two edges, film pixels.' },
);
