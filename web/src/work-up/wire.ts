import type { LabelBody, LaboratoryBody } from '@gapline/server/src/contract.ts';
import { post, postForFile } from '../wire/api.ts';

export type LabelRead = LabelBody;
export type LaboratoryRead = LaboratoryBody;

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
