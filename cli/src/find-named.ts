import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { cannot, type Outcome, type Reason } from '@gapline/core/measure/outcome.ts';

type Read<T> = (text: string, name: string) => Outcome<T>;

/** The file that an option of the command line names. */
export function readNamed<T>(
  path: string,
  { read, field, mend }: { readonly read: Read<T>; readonly field: string; readonly mend: string },
): Outcome<T> {
  if (existsSync(path)) return read(readFileSync(path, 'utf8'), path);
  return cannot({ code: 'no-such-file', message: `${path} does not exist.`, file: path, field, mend });
}

/** What ships under an id in a folder of the project; refused in the words of `unknown`, which is told the ids there are. */
export function findShipped<T extends { readonly id: string }>(
  id: string | undefined,
  from: { readonly folder: string; readonly read: Read<T>; readonly unknown: (known: readonly string[]) => Reason },
): Outcome<T> {
  const folder = fileURLToPath(new URL(`../../${from.folder}/`, import.meta.url));
  const names = readdirSync(folder).filter((n) => n.endsWith('.json') && !n.endsWith('.schema.json'));
  const known: string[] = [];
  for (const name of names.sort()) {
    const read = from.read(readFileSync(`${folder}${name}`, 'utf8'), name);
    if (!read.ok || read.value.id === id) return read;
    known.push(read.value.id);
  }
  return cannot(from.unknown(known));
}
