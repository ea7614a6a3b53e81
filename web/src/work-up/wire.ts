import type { LabResult } from '@gapline/core/laboratory/lab-result.ts';
import type { Reason } from '@gapline/core/measure/outcome.ts';
import { post, postForFile } from '../wire/api.ts';

/** What an implant's label says. */
export interface LabelRead {
  readonly carrier: 'gs1' | 'hibc';
  readonly device?: string;
  readonly lot?: string;
  readonly serial?: string;
  readonly expires?: string;
  readonly others: readonly { readonly code: string; readonly value: string }[];
  readonly warnings: readonly string[];
}

export interface LaboratoryRead {
  readonly results: readonly LabResult[];
  readonly notTaken: readonly { readonly entry: string; readonly reason: Reason }[];
}

export interface LetterWish {
  /** Whether the patient's name and number stand on the letter. */
  readonly identity: boolean;
  readonly to?: string;
}

export const readLabel = (text: string): Promise<LabelRead> => post('/api/read/label', { text });

/** Reads pasted rows, or a FHIR Bundle where the text is JSON. */
export const readLaboratory = (text: string): Promise<LaboratoryRead> =>
  post('/api/read/laboratory', { kind: text.trimStart().startsWith('{') ? 'fhir' : 'csv', text });

export const writeLetter = (caseId: string, wish: LetterWish): Promise<Blob> =>
  postForFile(`/api/cases/${encodeURIComponent(caseId)}/letters`, wish);
