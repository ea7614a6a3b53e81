import { type Cannot, cannot } from '../measure/outcome.ts';

/** A refused edit: what is wrong, at which field, and how to mend it. */
export const refuse = (code: string, message: string, field: string, mend: string): Cannot =>
  cannot({ code, message, field, mend });
