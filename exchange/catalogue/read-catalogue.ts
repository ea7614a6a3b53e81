import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { cannot, type Outcome, ok, type Reason } from '@gapline/core/measure/outcome.ts';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { catalogueSchemaDocument } from './catalogue-schema.ts';
import { referenceFaults } from './check-references.ts';
import { type Fault, faultOf, inFile } from './fault.ts';

const VERSION = '1.0';
const validate = new Ajv2020({ allErrors: true, verbose: true, strict: true }).compile<Catalogue>(
  catalogueSchemaDocument(),
);

/** A catalogue is text of some hundred kilobytes; more than this is another kind of file. */
const LARGEST_CHARACTERS = 50_000_000;

/**
 * Reads the text of a catalogue in JSON (CAT-1 to CAT-3). `cannot` names the file, the first field at fault, its mend
 * and the number of further faults. A newer version is refused as such, before anything else is judged.
 */
export function readCatalogue(text: string, fileName: string): Outcome<Catalogue> {
  const said = (code: string, what: string, mend: string, field?: string): Outcome<Catalogue> =>
    cannot({ code, message: `${fileName} ${what}.`, file: fileName, ...(field ? { field } : {}), mend });
  if (text.length > LARGEST_CHARACTERS)
    return said('file-too-large', 'is far larger than a catalogue can be', 'Give the catalogue itself.');
  let parsed: unknown;
  try {
    parsed = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  } catch (error) {
    const why = (error as Error).message.replace(/\s+/g, ' ');
    return said('not-json', `is not JSON: ${why}`, 'Correct the text there, or write it anew.');
  }
  const head = parsed as { format?: unknown; version?: unknown } | null;
  if (typeof head !== 'object' || head === null || head.format !== 'gapline-catalogue')
    return said('not-a-catalogue', 'is not a catalogue', 'A catalogue holds "format": "gapline-catalogue".', 'format');
  if (head.version !== VERSION)
    return said(
      'other-version',
      `has version ${String(head.version)}, this Gapline reads ${VERSION}`,
      'Use the Gapline that wrote it, or write the catalogue anew after docs/catalogue.md.',
      'version',
    );
  const faults = catalogueFaults(parsed);
  if (faults.length > 0) return firstOf(faults.map((fault) => inFile(fault, fileName)));
  const { $schema: _own, ...catalogue } = parsed as Catalogue & { $schema?: string };
  return ok(catalogue);
}

/** Every fault of a parsed catalogue: first what the schema sees, then, once that is sound, its references. */
export function catalogueFaults(parsed: unknown): readonly Fault[] {
  if (!validate(parsed)) return (validate.errors ?? []).map(faultOf);
  return referenceFaults(parsed);
}

/** The first fault, with the number of the others. */
export function firstOf(faults: readonly Reason[]): Outcome<Catalogue> {
  const [first, ...others] = faults;
  if (!first) throw new Error('No fault to tell.');
  const more = others.length > 0 ? ` (and ${others.length} more)` : '';
  return cannot({ ...first, message: `${first.message}${more}` });
}
