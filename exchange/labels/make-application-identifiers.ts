// Writes application-identifiers.json from the GS1 dictionary: node exchange/labels/make-application-identifiers.ts
import { readFileSync, writeFileSync } from 'node:fs';

/** One application identifier or range: how many characters may follow it, and whether FNC1 ends it. */
export interface ApplicationIdentifier {
  readonly from: string;
  readonly to: string;
  readonly fixed: boolean;
  readonly least: number;
  readonly most: number;
  readonly digits: boolean;
  readonly checkDigit: boolean;
  readonly title: string;
}

interface Length {
  readonly least: number;
  readonly most: number;
}

/** Length of one component of the dictionary's format, e.g. `N14,csum`, `X..20`, `[N..12]`. */
function componentLength(component: string): Length {
  const optional = component.startsWith('[');
  const found = component.match(/^\[?[NXYZ](\.\.)?(\d+)/);
  if (!found) throw new Error(`format not understood: ${component}`);
  const most = Number(found[2]);
  const least = found[1] ? 1 : most;
  return { least: optional ? 0 : least, most };
}

/** Reads the dictionary's text. Throws on a line that it does not understand. */
export function readDictionary(text: string): readonly ApplicationIdentifier[] {
  return text
    .split('\n')
    .filter((line) => /^\d/.test(line))
    .map((line) => {
      const [body = '', title = ''] = line.split(' # ');
      const [range = '', ...words] = body.trim().split(/\s+/);
      const flags = words[0] && /^[*!?"$%&'()+,./:;<=>@\\^_`{|}~-]+$/.test(words[0]) ? (words.shift() ?? '') : '';
      const components = words.filter((w) => /^\[?[NXYZ](\.\.)?\d/.test(w));
      const lengths = components.map(componentLength);
      const [from = '', to = from] = range.split('-');
      return {
        from,
        to,
        fixed: flags.includes('*'),
        least: lengths.reduce((a, l) => a + l.least, 0),
        most: lengths.reduce((a, l) => a + l.most, 0),
        digits: components.every((c) => /^\[?N/.test(c)),
        checkDigit: components.some((c) => c.includes('csum')),
        title: title.trim(),
      };
    });
}

if (import.meta.main) {
  const source = new URL('testdata/gs1-syntax-dictionary.txt', import.meta.url);
  const rows = readDictionary(readFileSync(source, 'utf8')).map((row) => JSON.stringify(row));
  writeFileSync(new URL('application-identifiers.json', import.meta.url), `[\n${rows.join(',\n')}\n]\n`);
}
