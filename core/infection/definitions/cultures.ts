import { all, any, type Formula, is } from '../formula.ts';

const ASPIRATE_GREW = is('aspirate-culture', 'growth', 'growth, virulent', 'same organism in two taps');

/** Aspirate and one sample of the operation with the same organism are two positives. INF-8. */
const ASPIRATE_AND_TISSUE: Formula = all(
  is('tissue-culture', 'same organism as the aspirate', 'same organism as the aspirate, virulent'),
  ASPIRATE_GREW,
);

const TWO_AT_OPERATION = is('tissue-culture', 'same organism in two samples');

/** The same organism in two separate samples of fluid or tissue, wherever they were taken. */
export const TWO_WITH_SAME_ORGANISM: Formula = any(
  is('aspirate-culture', 'same organism in two taps'),
  TWO_AT_OPERATION,
  ASPIRATE_AND_TISSUE,
);

/** As above, but two taps alone do not do: at least one sample is from the operation. */
export const TWO_WITH_ONE_AT_OPERATION: Formula = any(TWO_AT_OPERATION, ASPIRATE_AND_TISSUE);

export const ASPIRATE_GROWTH: Formula = ASPIRATE_GREW;

export const TISSUE_GROWTH: Formula = is(
  'tissue-culture',
  'growth',
  'growth, virulent',
  'same organism as the aspirate',
  'same organism as the aspirate, virulent',
  'same organism in two samples',
);

/** Growth in at least one sample; different organisms in two samples are still single cultures. INF-8. */
export const SINGLE_GROWTH: Formula = any(ASPIRATE_GROWTH, TISSUE_GROWTH);

export const VIRULENT_GROWTH: Formula = any(
  is('aspirate-culture', 'growth, virulent'),
  is('tissue-culture', 'growth, virulent', 'same organism as the aspirate, virulent'),
);

export const SINUS: Formula = is('sinus', 'yes');
export const FIVE_IN_FIVE: Formula = is('histology', 'five-in-five-fields');
export const STRIP: Formula = is('leukocyte-esterase', '++ or more');
export const DEFENSIN: Formula = is('alpha-defensin', 'positive');
/** Purulence however it may be explained. */
export const ANY_PURULENCE: Formula = is('purulence', 'with metal reaction', 'with crystals', 'yes');

/** A definition's own limits, by the time since the last operation. INF-6. */
export const byPhase = (phases: { readonly chronic?: Formula; readonly acute?: Formula }): Formula =>
  any(
    ...(phases.chronic ? [all(is('phase', 'chronic'), phases.chronic)] : []),
    ...(phases.acute ? [all(is('phase', 'acute'), phases.acute)] : []),
  );
