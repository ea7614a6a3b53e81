/** A table for people: columns as wide as their widest cell, two spaces between, a rule under the head. */
export function table(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  right: readonly number[] = [],
): string {
  const all = [head, ...rows];
  const widths = head.map((_, c) => Math.max(...all.map((row) => width(row[c] ?? ''))));
  const line = (row: readonly string[]) =>
    widths
      .map((w, c) => {
        const cell = row[c] ?? '';
        const pad = ' '.repeat(w - width(cell));
        return right.includes(c) ? pad + cell : cell + pad;
      })
      .join('  ')
      .trimEnd();
  return [line(head), widths.map((w) => '-'.repeat(w)).join('  '), ...rows.map(line)].join('\n');
}

const width = (text: string): number => [...text].length;
