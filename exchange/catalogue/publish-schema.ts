/**
 * Writes catalogues/catalogue.schema.json anew from `catalogue-schema.ts`; a test fails while the published file is
 * older:
 *
 *     node exchange/catalogue/publish-schema.ts
 */
import { writeFileSync } from 'node:fs';
import { catalogueSchemaDocument } from './catalogue-schema.ts';

export const PUBLISHED = new URL('../../catalogues/catalogue.schema.json', import.meta.url);
export const publishedText = (): string => `${JSON.stringify(catalogueSchemaDocument(), null, 2)}\n`;

if (import.meta.main) writeFileSync(PUBLISHED, publishedText());
