/** A line of the letter: a strong beginning, then plain text. Either may be empty. */
export interface Line {
  readonly strong?: string;
  readonly text: string;
}

/** One row of a small table: what, the answer in bold, a note. */
export interface Row {
  readonly label: string;
  readonly value: string;
  readonly note: string;
}

export interface Section {
  readonly title: string;
  readonly rows?: readonly Row[];
  readonly lines: readonly Line[];
}

/** How much is told: entries of a list, and letters of a free text. */
export interface Room {
  readonly entries: number;
  readonly letters: number;
}

export const NOT_ENTERED: Line = { text: 'Nothing entered.' };

export const plain = (id: string): string => id.replaceAll('-', ' ');

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "1.7; 2.1; and 2 more" where a list is longer than the page can hold. */
export function shortened(items: readonly string[], most: number): string {
  const more = items.length - most;
  return more > 0 ? [...items.slice(0, most), `and ${more} more`].join('; ') : items.join('; ');
}

/** The list as far as there is room, then how many more there are. */
export function fewer<T>(items: readonly T[], most: number, rest: (more: number) => T): readonly T[] {
  const more = items.length - most;
  return more > 0 ? [...items.slice(0, most), rest(more)] : items;
}

/** A free text on one line, cut where it is too long, without a full stop of its own. */
export function brief(text: string, letters: number): string {
  const line = text
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/[.;,]+$/, '');
  return line.length > letters ? `${line.slice(0, letters - 1).trimEnd()}…` : line;
}

/** The labels of those items of a table that are known to be so. */
export const holding = (
  items: readonly { readonly id: string; readonly label: string }[],
  known: Readonly<Record<string, string | undefined>> | undefined,
  as: 'yes' | 'no' = 'yes',
): readonly string[] => items.filter((i) => known?.[i.id] === as).map((i) => i.label);
