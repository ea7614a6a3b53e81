import { cannot, type Outcome, ok, type Reason } from '@gapline/core/measure/outcome.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { Ajv2020, type ErrorObject } from 'ajv/dist/2020.js';
import { CASE_VERSION, caseSchemaDocument } from './case-schema.ts';
import { faultInWords } from './fault-in-words.ts';

const validate = new Ajv2020({
  allErrors: true,
  verbose: true,
  strict: true,
  // A result is a number or a word, as it was entered.
  allowUnionTypes: true,
}).compile<CaseFile>(caseSchemaDocument());

/** A case file is text of some ten kilobytes; more than this is another kind of file. */
const LARGEST_CHARACTERS = 20_000_000;

/**
 * Reads the text of a case file. `ok` holds a case that the schema allows (what the schema cannot say is
 * checked by core/plan/check-case.ts); `cannot` names the file, the first field at fault and its mend.
 * A file of a newer version is refused as such, before anything else in it is judged.
 */
export function readCase(text: string, fileName: string): Outcome<CaseFile> {
  const [first, ...others] = caseFaults(text, fileName);
  if (first) {
    const more = others.length > 0 ? ` (and ${others.length} more in this file)` : '';
    return cannot({ ...first, message: `${first.message}${more}` });
  }
  const { $schema: _own, ...read } = JSON.parse(withoutMark(text)) as CaseFile & { $schema?: string };
  return ok(read);
}

/** Every fault of a case file's text, in the order of the file's fields; empty when it is sound. */
export function caseFaults(text: string, fileName: string): readonly Reason[] {
  if (text.length > LARGEST_CHARACTERS) {
    return [
      fault(fileName, 'file-too-large', 'is far larger than a case file can be', '', 'Give the case.json itself.'),
    ];
  }
  let parsed: unknown;
  try {
    parsed = JSON.parse(withoutMark(text));
  } catch (error) {
    const why = String((error as Error).message).replace(/\s+/g, ' ');
    return [fault(fileName, 'not-json', `is not JSON: ${why}`, '', 'Correct the text there, or write it anew.')];
  }
  const strange = notOurs(parsed, fileName);
  if (strange) return [strange];
  if (validate(parsed)) return [];
  return withoutEchoes(validate.errors ?? []).map((error) => faultInWords(error, fileName));
}

/** A byte order mark is no part of the text. */
const withoutMark = (text: string): string => (text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);

function fault(file: string, code: string, what: string, field: string, mend: string): Reason {
  return { code, message: `${file} ${what}.`, file, ...(field ? { field } : {}), mend };
}

/** Another kind of file, or one of another version: said before any field is judged. */
function notOurs(parsed: unknown, file: string): Reason | null {
  const head = parsed as { format?: unknown; version?: unknown } | null;
  if (typeof head !== 'object' || head === null || head.format !== 'gapline-case') {
    return fault(file, 'not-a-case', 'is not a case file', 'format', 'A case file holds "format": "gapline-case".');
  }
  if (head.version === CASE_VERSION) return null;
  const asked = typeof head.version === 'string' ? head.version : 'no version';
  if (isNewer(asked)) {
    const mend = 'Use the newer Gapline that wrote it; nothing was read from it here.';
    return fault(file, 'newer-version', `has version ${asked}, this Gapline reads ${CASE_VERSION}`, 'version', mend);
  }
  const mend = `Give "version": "${CASE_VERSION}" once the fields agree with docs/case-file.md.`;
  return fault(file, 'unknown-version', `has ${asked}, which is no version of a case file`, 'version', mend);
}

function isNewer(version: string): boolean {
  const [theirs = Number.NaN, ours = 0] = [version, CASE_VERSION].map((v) => {
    const parts = /^(\d+)\.(\d+)/.exec(v);
    return parts ? Number(parts[1]) * 1000 + Number(parts[2]) : Number.NaN;
  });
  return theirs > ours;
}

/**
 * Of a choice between shapes (`anyOf`) only the branch whose `kind` was meant is worth telling; where no
 * branch has that kind, one error about the kind itself.
 */
function withoutEchoes(errors: readonly ErrorObject[]): readonly ErrorObject[] {
  const branch = (e: ErrorObject) => /^(.*\/anyOf\/\d+)\//.exec(e.schemaPath)?.[1];
  const otherKinds = errors.filter((e) => branch(e) && e.keyword === 'const' && e.instancePath.endsWith('/kind'));
  const strayed = (e: ErrorObject) =>
    otherKinds.some(
      (k) => branch(k) === branch(e) && e.instancePath.startsWith(k.instancePath.slice(0, -'/kind'.length)),
    );
  const meant = errors.filter((e) => !branch(e) || !strayed(e));
  const inside = (e: ErrorObject, choice: ErrorObject) =>
    e !== choice && branch(e) !== undefined && e.instancePath.startsWith(choice.instancePath);
  return meant.filter((e) => e.keyword !== 'anyOf' || !meant.some((other) => inside(other, e)));
}
