/**
 * Writes kits/set-list.schema.json anew from `set-list-schema.ts`; a test fails while the published file is older:
 *
 *     node exchange/kit/publish-schema.ts
 */
import { writeFileSync } from 'node:fs';
import { setListSchemaDocument } from './set-list-schema.ts';

export const PUBLISHED = new URL('../../kits/set-list.schema.json', import.meta.url);
export const publishedText = (): string => `${JSON.stringify(setListSchemaDocument(), null, 2)}\n`;

if (import.meta.main) writeFileSync(PUBLISHED, publishedText());
