import type { CaseFile } from '@gapline/core/plan/case.ts';
import { collected } from '../collected.ts';
import { DISCLAIMER } from '../foot.ts';
import { header } from '../header.ts';
import { type Box, heading, newPage, type Page, rule, write } from '../page.ts';
import { SIDE_IN_WORDS } from '../words.ts';
import type { KitListContent } from './kit-list-content.ts';
import { setTable } from './set-table.ts';

export interface KitListRequest {
  readonly case: CaseFile;
  readonly content: KitListContent;
  /** ISO date and time: shown, and the only input besides case and content that changes the bytes. */
  readonly madeAt: string;
}

const LEFT = 28;
const WIDTH = 539;
const BOTTOM = 782;
const FULL = { x: LEFT, width: WIDTH } as const;

/**
 * The kit of one operation on A4, to order by and to pack by: what leads, every set with a box to tick, owner and the day to
 * order by, what no set answers, what to do when the bone is worse. Readable in black and white; goes on to a second page
 * rather than leaving anything out. Same request, same bytes.
 */
export function kitList({ case: file, content, madeAt }: KitListRequest): Promise<Uint8Array> {
  const page = newPage(`${SIDE_IN_WORDS[file.side]} - kit`, madeAt);
  const bytes = collected(page);
  header(page, { file, madeAt, title: 'Kit for revision of the knee replacement', after: hospitalOf(content) });
  let y = lead(page, content, 94);
  y = setTable(page, content.sets, { ...FULL, y }) + 6;
  const flow = flowFrom(page, y);
  flow('WITHOUT AN ANSWER IN THIS ROOM', content.uncovered, 'Nothing that was drawn.');
  flow('IF IT TURNS OUT OTHERWISE', content.bailOuts, 'No other way was drawn.');
  flow('IF A SET DOES NOT ARRIVE', content.missing, 'No set is on loan.');
  flow('LEFT OUT', content.left, 'Nothing: every set of the list is brought.');
  flow('TO KEEP IN MIND', [...content.cautions, content.reckoned], '');
  foot(page);
  page.end();
  return bytes;
}

const hospitalOf = ({ hospital, invented }: KitListContent): string => `${hospital}${invented ? ' (invented)' : ''}`;

/** The three lines in large type, under the day of surgery. */
function lead(page: Page, { lead: lines, surgeryOn }: KitListContent, top: number): number {
  let y = top;
  const day = surgeryOn ? `Surgery on ${surgeryOn}` : 'Day of surgery not set: no order-by dates';
  y += write(page, day, { box: { ...FULL, y, height: 14 }, style: { size: 11, weight: 'bold' } }) + 4;
  for (const line of lines)
    y += write(page, line, { box: { ...FULL, y, height: 40 }, style: { size: 10.5, least: 8 } }) + 3;
  return y + 4;
}

/** Sets one titled paragraph after the other, on to a new page where it would not stand whole. */
function flowFrom(page: Page, start: number) {
  let y = start;
  return (title: string, lines: readonly string[], none: string): void => {
    const text = lines.length > 0 ? lines.map((line) => `• ${line}`).join('\n') : none;
    if (text === '') return;
    const height = page.font('plain').fontSize(8.5).heightOfString(text, { width: WIDTH, lineGap: 0 });
    if (y + 18 + height > BOTTOM && y > 200) {
      foot(page);
      page.addPage();
      y = 28;
    }
    const box: Box = {
      ...FULL,
      y: heading(page, title, { ...FULL, y }),
      height: Math.min(height + 2, BOTTOM - y - 18),
    };
    write(page, text, { box, style: { size: 8.5, least: 5.5 } });
    y = box.y + box.height + 7;
  };
}

function foot(page: Page): void {
  rule(page, { ...FULL, y: 790 }, 1.2);
  write(page, DISCLAIMER, { box: { ...FULL, y: 795, height: 26 }, style: { size: 9, least: 7, weight: 'bold' } });
}
