import type { SliceStack } from '@gapline/core/landmarks/slice-stack.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';

/** A film that is a stack of slices. */
export type StackFilm = CaseFilm & { readonly slices: SliceStack };

export const isStack = (film: CaseFilm): film is StackFilm => film.slices !== undefined;
