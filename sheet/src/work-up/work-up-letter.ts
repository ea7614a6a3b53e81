import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { WorkUpReading } from '@gapline/core/work-up/read-work-up.ts';
import { collected } from '../collected.ts';
import { DISCLAIMER } from '../foot.ts';
import { heading, newPage, type Page, rule, write } from '../page.ts';
import { readableName, SIDE_IN_WORDS } from '../words.ts';
import { type LetterLines, letterLines } from './letter-lines.ts';

export interface LetterRequest {
  readonly case: CaseFile;
  readonly reading: WorkUpReading;
  /** False leaves out name, number, day of birth and the case's title. */
  readonly identity: boolean;
  /** Whom it is written to. */
  readonly to?: string;
  /** ISO date and time: shown, and the only input besides the case that changes the bytes. */
  readonly madeAt: string;
}

interface Block {
  readonly title: string;
  readonly lines: readonly string[];
  /** Height in points that the block may take. */
  readonly height: number;
}

const LEFT = 28;
const WIDTH = 539;

/**
 * The work-up of one failed knee on one A4 page, to refer it: side in words and large, history, what is implanted, values, classes
 * of infection, causes with evidence, the gate, what is not known. Readable in black and white. Same request, same bytes.
 */
export function workUpLetter(request: LetterRequest): Promise<Uint8Array> {
  const { case: file, reading, madeAt } = request;
  const page = newPage(`${SIDE_IN_WORDS[file.side]} - work-up`, madeAt);
  const bytes = collected(page);
  head(page, request);
  let y = 98;
  for (const block of blocks(letterLines(file, reading))) {
    const top = heading(page, block.title, { x: LEFT, y, width: WIDTH });
    write(page, block.lines.join('\n'), {
      box: { x: LEFT, y: top - 1, width: WIDTH, height: block.height - 20 },
      style: { size: 9, least: 6 },
    });
    y += block.height;
  }
  rule(page, { x: LEFT, y: 786, width: WIDTH }, 1.2);
  write(page, DISCLAIMER, {
    box: { x: LEFT, y: 791, width: WIDTH, height: 26 },
    style: { size: 9, least: 7, weight: 'bold' },
  });
  page.end();
  return bytes;
}

function blocks(l: LetterLines): readonly Block[] {
  return [
    { title: 'WHERE IT STANDS', lines: l.gate, height: 66 },
    { title: 'HISTORY AND EXAMINATION', lines: l.history, height: 82 },
    { title: 'IMPLANTED', lines: l.implanted, height: 48 },
    { title: 'LABORATORY AND ASPIRATE, values in use', lines: l.values, height: 94 },
    { title: 'INFECTION BY DEFINITION', lines: l.infection, height: 76 },
    { title: 'CAUTIONS', lines: l.cautions, height: 54 },
    { title: 'WHAT WOULD CHANGE THIS', lines: l.wouldChange, height: 46 },
    { title: 'CAUSES NAMED BY THE SURGEON', lines: l.causes, height: 80 },
    { title: 'COMPLEXITY', lines: l.complexity, height: 62 },
    { title: 'TO CORRECT BEFORE SURGERY', lines: l.host, height: 74 },
  ];
}

function head(page: Page, { case: file, identity, to, madeAt }: LetterRequest): void {
  page.rect(LEFT, 24, 226, 44).fill('black');
  write(page, SIDE_IN_WORDS[file.side], {
    box: { x: LEFT, y: 30, width: 226, height: 36 },
    style: { size: 28, weight: 'bold', align: 'center', grey: 'white' },
  });
  write(page, 'Work-up of a failed knee replacement', {
    box: { x: LEFT, y: 71, width: 226, height: 12 },
    style: { size: 8.5, align: 'center' },
  });
  const column = { x: 266, width: 301 };
  const { patient } = file;
  const name = patient.name ? readableName(patient.name) : 'No name given';
  write(page, identity ? name : 'Identity left out', {
    box: { ...column, y: 22, height: 20 },
    style: { size: 15, least: 8, weight: 'bold' },
  });
  const facts = identity
    ? [
        patient.id ? `No. ${patient.id}` : 'no patient number',
        patient.birthDate ? `born ${patient.birthDate}` : 'date of birth not given',
      ]
    : [];
  write(
    page,
    [...facts, ...(patient.sex ? [patient.sex] : []), ...(file.invented ? ['invented demonstration case'] : [])].join(
      ' · ',
    ),
    {
      box: { ...column, y: 42, height: 12 },
      style: { size: 9, least: 7 },
    },
  );
  if (to) write(page, `To: ${to}`, { box: { ...column, y: 55, height: 12 }, style: { size: 9, least: 6.5 } });
  write(page, `Made ${madeAt.slice(0, 16).replace('T', ' ')} UTC`, {
    box: { ...column, y: 69, height: 11 },
    style: { size: 8 },
  });
  rule(page, { x: LEFT, y: 88, width: WIDTH }, 1.2);
}
