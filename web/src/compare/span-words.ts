import { ZONES } from '@gapline/core/failure/lucent-lines.ts';
import type { InterfaceSpan, SpanComponent, SpanKind } from '@gapline/core/limb/interface-span.ts';

export const KIND_WORDS: Readonly<Record<SpanKind, string>> = {
  'lucent-line': 'Lucent line',
  'cement-mantle': 'Cement mantle',
};

export const COMPONENT_WORDS: Readonly<Record<SpanComponent, string>> = {
  femur: 'femur, lateral',
  'tibia-ap': 'tibia, AP',
  'tibia-lateral': 'tibia, lateral',
  patella: 'patella, skyline',
};

export const spanWords = ({ kind, component, zone }: Pick<InterfaceSpan, 'kind' | 'component' | 'zone'>): string =>
  `${KIND_WORDS[kind]}, ${COMPONENT_WORDS[component]}, zone ${zone}`;

export const zonesOf = (component: SpanComponent): readonly number[] =>
  Array.from({ length: ZONES[component] }, (_, i) => i + 1);
