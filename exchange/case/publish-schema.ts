/**
 * Writes cases/case.schema.json anew from `case-schema.ts`; a test fails while the published file is older:
 *
 *     node exchange/case/publish-schema.ts
 */
import { writeFileSync } from 'node:fs';
import { caseSchemaDocument } from './case-schema.ts';

export const PUBLISHED = new URL('../../cases/case.schema.json', import.meta.url);
export const publishedText = (): string => `${JSON.stringify(caseSchemaDocument(), null, 2)}\n`;

if (import.meta.main) writeFileSync(PUBLISHED, publishedText());
