import type { SetList } from '@gapline/core/kit/set-list.ts';
import { cannot, type Outcome, ok, type Reason } from '@gapline/core/measure/outcome.ts';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { faultInWords } from '../case/fault-in-words.ts';
import { setListSchemaDocument } from './set-list-schema.ts';

const VERSION = '1.0';
const validate = new Ajv2020({ allErrors: true, verbose: true, strict: true }).compile<SetList>(
  setListSchemaDocument(),
);

/** A list of sets is text of some ten kilobytes; more than this is another kind of file. */
const LARGEST_CHARACTERS = 20_000_000;

/**
 * Reads the text of a list of sets in JSON (KIT-12). `cannot` names the file, the first field at fault, its mend and the
 * number of further faults. Whether the parts stand in the catalogue is told later, with the catalogue at hand (KIT-9).
 *
 * @param name of the file, for the faults.
 */
export function readSetList(text: string, name: string): Outcome<SetList> {
  const said = (code: string, what: string, rest: { mend: string; field?: string }): Outcome<SetList> =>
    cannot({ code, message: `${name} ${what}.`, file: name, ...rest });
  if (text.length > LARGEST_CHARACTERS)
    return said('file-too-large', 'is far larger than a list of sets can be', { mend: 'Give the list itself.' });
  let parsed: unknown;
  try {
    parsed = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  } catch (error) {
    const why = (error as Error).message.replace(/\s+/g, ' ');
    return said('not-json', `is not JSON: ${why}`, { mend: 'Correct the text there, or write it anew.' });
  }
  const head = parsed as { format?: unknown; version?: unknown } | null;
  if (typeof head !== 'object' || head === null || head.format !== 'gapline-sets')
    return said('not-a-set-list', 'is not a list of sets', {
      mend: 'A list of sets holds "format": "gapline-sets".',
      field: 'format',
    });
  if (head.version !== VERSION)
    return said('other-version', `has version ${String(head.version)}, this Gapline reads ${VERSION}`, {
      mend: 'Use the Gapline that wrote it, or write the list anew after docs/kit.md.',
      field: 'version',
    });
  const faults = validate(parsed)
    ? contradictions(parsed, name)
    : (validate.errors ?? []).map((error) => faultInWords(error, name, 'a list of sets'));
  const [first, ...others] = faults;
  if (first) {
    const more = others.length > 0 ? ` (and ${others.length} more)` : '';
    return cannot({ ...first, message: `${first.message}${more}` });
  }
  const { $schema: _own, ...list } = parsed as SetList & { $schema?: string };
  return ok(list);
}

/** What a schema cannot see: references twice, sets that hold nothing, own sets with a fee or a wait. */
function contradictions(list: SetList, file: string): readonly Reason[] {
  const at = (code: string, field: string, [what, mend]: readonly [string, string]): Reason => ({
    code,
    message: `${file}: ${field} ${what}.`,
    file,
    field,
    mend,
  });
  return list.sets.flatMap((set, i) => {
    const path = `sets[${i}]`;
    const first = list.sets.findIndex((other) => other.ref === set.ref);
    const twice = set.parts.findIndex((part, p) => set.parts.findIndex((other) => other.ref === part.ref) < p);
    return [
      ...(first < i
        ? [
            at('reference-twice', `${path}.ref`, [
              `is "${set.ref}", which sets[${first}] has already`,
              'Give each set a reference of its own.',
            ]),
          ]
        : []),
      ...(twice >= 0
        ? [
            at('reference-twice', `${path}.parts[${twice}].ref`, [
              `is "${set.parts[twice]?.ref}", which stands in this set already`,
              'Give each part once, with its count.',
            ]),
          ]
        : []),
      ...(set.parts.length === 0 && (set.services ?? []).length === 0
        ? [at('set-is-empty', path, ['holds neither parts nor a service', 'Say what it gives, or remove it.'])]
        : []),
      ...(set.owner === 'own-shelf' && set.fee > 0
        ? [
            at('own-set-with-fee', `${path}.fee`, [
              `is ${set.fee} for a set on the own shelf`,
              'Give 0, or make it a loan.',
            ]),
          ]
        : []),
      ...(set.owner === 'own-shelf' && set.leadDays > 0
        ? [
            at('own-set-with-lead', `${path}.leadDays`, [
              `is ${set.leadDays} for a set on the own shelf`,
              'Give 0, or make it a loan.',
            ]),
          ]
        : []),
    ];
  });
}
