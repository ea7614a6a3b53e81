import type { Mark } from '../landmarks/mark.ts';
import type { RepeatedMark, SkippedMark } from '../landmarks/repeated-mark.ts';
import type { CaseFilm } from './case.ts';

/**
 * What a person changed in a case, as plain data. Pages, command line and server all change a case
 * through these alone, so that each change can be undone, kept in a history and replayed.
 */
export type Edit =
  /** Places a mark, or moves the one of the same landmark, side and film. `at` = place in the list for a new one; absent = last. */
  | { readonly kind: 'put-mark'; readonly mark: Mark; readonly at?: number }
  | {
      readonly kind: 'remove-mark';
      readonly landmark: Mark['landmark'];
      readonly side: Mark['side'];
      readonly film: string;
    }
  /** Keeps one more placing of a landmark, or moves the one of the same round. `at` as for marks. */
  | { readonly kind: 'put-repeat'; readonly repeat: RepeatedMark; readonly at?: number }
  | ({ readonly kind: 'remove-repeat' } & Pick<RepeatedMark, 'landmark' | 'side' | 'film' | 'round'>)
  /** Passes a landmark over, or changes the reason. `at` as for marks. */
  | { readonly kind: 'put-skip'; readonly skip: SkippedMark; readonly at?: number }
  | ({ readonly kind: 'remove-skip' } & Pick<SkippedMark, 'landmark' | 'side' | 'film'>)
  /** Adds a film, or replaces the one of the same id. `at` as for marks. */
  | { readonly kind: 'put-film'; readonly film: CaseFilm; readonly at?: number }
  /** Takes the film out of the case, and every mark, repeat and skip on it. */
  | { readonly kind: 'remove-film'; readonly film: string }
  /** Sets or, with `value: null`, clears one field. `field` is a JSON Pointer (RFC 6901) such as `/examination/mcl`. */
  | { readonly kind: 'set'; readonly field: string; readonly value: unknown }
  /** Several at once, undone at once. */
  | { readonly kind: 'group'; readonly label: string; readonly edits: readonly Edit[] };
