import { createRequire } from 'node:module';
import PDFDocument from 'pdfkit';

/** Points per millimetre: PDF user space has 72 points to the inch. */
export const PT_PER_MM = 72 / 25.4;

export const A4 = { width: 595.28, height: 841.89 } as const;

export type Page = PDFKit.PDFDocument;

export type Weight = 'plain' | 'bold' | 'mono';

const require = createRequire(import.meta.url);
const FONTS: Readonly<Record<Weight, string>> = {
  plain: require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf'),
  bold: require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf'),
  mono: require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansMono.ttf'),
};

/** One empty A4 page with the fonts that cover Latin, Greek and Cyrillic names. The date is the only thing that is not given by the plan. */
export function newPage(title: string, madeAt: string): Page {
  const date = new Date(madeAt);
  const page = new PDFDocument({
    size: 'A4',
    margin: 0,
    pdfVersion: '1.7',
    lang: 'en',
    font: FONTS.plain,
    info: { Title: title, Creator: 'Gapline', Producer: 'Gapline', CreationDate: date, ModDate: date },
  });
  for (const [name, path] of Object.entries(FONTS)) page.registerFont(name, path);
  return page;
}

/** A rectangle of the page in points, y downwards. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface TextStyle {
  readonly size: number;
  /** Smallest size that is still readable where it must stand; below it the text is cut with an ellipsis. */
  readonly least?: number;
  readonly weight?: Weight;
  readonly align?: 'left' | 'right' | 'center';
  readonly grey?: string;
}

/**
 * Writes text into a box, as large as asked and smaller where it would not fit; what does not fit at the least size ends in an
 * ellipsis. Never leaves the box, never starts a page. Result: the height used.
 */
export function write(
  page: Page,
  text: string,
  { box, style }: { readonly box: Box; readonly style: TextStyle },
): number {
  const { size, least = size, weight = 'plain', align = 'left', grey = 'black' } = style;
  const options = { width: box.width, align, lineGap: 0 } as const;
  page.font(weight).fillColor(grey);
  let points = size;
  page.fontSize(points);
  while (points > least && page.heightOfString(text, options) > box.height) {
    points = Math.max(least, points - 0.25);
    page.fontSize(points);
  }
  const used = Math.min(page.heightOfString(text, options), box.height);
  // A box must hold one line whole, or nothing would be written at all.
  const height = Math.max(box.height, page.currentLineHeight(true));
  page.text(text, box.x, box.y, { ...options, height, ellipsis: true });
  return used;
}

/** A thin rule across a box's top. */
export function rule(page: Page, { x, y, width }: Omit<Box, 'height'>, weight = 0.6): void {
  page
    .lineWidth(weight)
    .strokeColor('black')
    .undash()
    .moveTo(x, y)
    .lineTo(x + width, y)
    .stroke();
}

/** A small heading over a rule. Result: where the content may start. */
export function heading(page: Page, text: string, at: Omit<Box, 'height'>): number {
  rule(page, at, 1.2);
  write(page, text, { box: { ...at, y: at.y + 4, height: 12 }, style: { size: 8.5, weight: 'bold' } });
  return at.y + 18;
}
