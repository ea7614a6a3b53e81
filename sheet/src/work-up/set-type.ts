import { type Box, type Page, rule } from '../page.ts';
import type { Line, Row, Section } from './letter-words.ts';

/** Where text is set, and how large. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly size: number;
}

const TITLE = 13;
const AFTER = 7;
/** Shares of a row's width: what, the answer, a note. */
const COLUMNS = [0.3, 0.37, 0.33] as const;
const GUTTER = 5;

const cells = ({ label, value, note }: Row) => [label, value, note] as const;
const fontOf = (column: number) => (column === 1 ? 'bold' : 'plain');
const cellWidth = (width: number, column: number): number => width * (COLUMNS[column] ?? 0) - GUTTER;

function rowHeight(page: Page, row: Row, { width, size }: Place): number {
  const heights = cells(row).map((text, i) =>
    page
      .font(fontOf(i))
      .fontSize(size)
      .heightOfString(text || ' ', { width: cellWidth(width, i) }),
  );
  return Math.max(...heights) + 1;
}

/** Widest strong beginning that still shares its line with the text, as a part of the width. */
const SHARED = 0.8;

const strongWidth = (page: Page, { strong = '' }: Line, { size }: Place): number =>
  strong === '' ? 0 : page.font('bold').fontSize(size).widthOfString(strong);

/** Height of the strong beginning where it stands on lines of its own, of the text otherwise. */
function lineHeight(page: Page, line: Line, place: Place): number {
  const { strong = '', text } = line;
  const { width, size } = place;
  const indent = strongWidth(page, line, place);
  const alone = indent > SHARED * width ? page.font('bold').fontSize(size).heightOfString(strong, { width }) : 0;
  const options = alone > 0 ? { width } : { width, indent };
  return (
    alone +
    (text === '' && alone > 0
      ? 0
      : page
          .font('plain')
          .fontSize(size)
          .heightOfString(text || ' ', options))
  );
}

const sum = (heights: readonly number[]): number => heights.reduce((a, b) => a + b, 0);

export const linesHeight = (page: Page, lines: readonly Line[], place: Place): number =>
  sum(lines.map((l) => lineHeight(page, l, place)));

export function sectionHeight(page: Page, { rows = [], lines }: Section, place: Place): number {
  return TITLE + sum(rows.map((r) => rowHeight(page, r, place))) + linesHeight(page, lines, place) + AFTER;
}

function setLine(page: Page, line: Line, place: Place): void {
  const { strong = '', text } = line;
  const { x, y, width, size } = place;
  const indent = strongWidth(page, line, place);
  page.fillColor('black').fontSize(size);
  if (indent > SHARED * width) {
    page.font('bold').text(strong, x, y, { width });
    page.font('plain').text(text, x, page.y, { width });
    return;
  }
  if (indent > 0) page.font('bold').text(strong, x, y, { lineBreak: false });
  page.font('plain').text(text, x, y, { width, indent });
}

/** Sets lines one under the other. Result: y below the last. */
export function setLines(page: Page, lines: readonly Line[], place: Place): number {
  let { y } = place;
  for (const line of lines) {
    setLine(page, line, { ...place, y });
    y += lineHeight(page, line, place);
  }
  return y;
}

function setRow(page: Page, row: Row, place: Place): number {
  const height = rowHeight(page, row, place);
  let { x } = place;
  for (const [i, text] of cells(row).entries()) {
    const width = cellWidth(place.width, i);
    page
      .font(fontOf(i))
      .fontSize(place.size)
      .fillColor('black')
      .text(text, x, place.y, { width, height: height + 1 });
    x += width + GUTTER;
  }
  return place.y + height;
}

/** A titled section under a thin rule. Result: y where the next may start. */
export function setSection(page: Page, { title, rows = [], lines }: Section, place: Place): number {
  rule(page, place, 0.8);
  page
    .font('bold')
    .fontSize(7.5)
    .fillColor('black')
    .text(title, place.x, place.y + 3, { width: place.width, lineBreak: false });
  let y = place.y + TITLE;
  for (const row of rows) y = setRow(page, row, { ...place, y });
  return setLines(page, lines, { ...place, y }) + AFTER;
}

/** A framed band with one word of weight and lines beside it. Result: y below the band. */
export function setBand(
  page: Page,
  { word, lines }: { readonly word: string; readonly lines: readonly Line[] },
  box: Omit<Box, 'height'> & { readonly size: number },
): number {
  const text: Place = { x: box.x + BAND_WORD, y: box.y + 7, width: box.width - BAND_WORD - 8, size: box.size };
  const height = bandHeight(page, lines, box);
  page.lineWidth(1.6).strokeColor('black').undash().rect(box.x, box.y, box.width, height).stroke();
  page
    .font('bold')
    .fontSize(14)
    .fillColor('black')
    .text(word, box.x + 9, box.y + 7, { width: BAND_WORD - 18 });
  setLines(page, lines, text);
  return box.y + height;
}

const BAND_WORD = 150;

export const bandHeight = (
  page: Page,
  lines: readonly Line[],
  at: { readonly width: number; readonly size: number },
): number =>
  Math.max(34, linesHeight(page, lines, { x: 0, y: 0, width: at.width - BAND_WORD - 8, size: at.size }) + 14);
