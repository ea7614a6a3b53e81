import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { WorkUpReading } from '@gapline/core/work-up/read-work-up.ts';
import { collected } from '../collected.ts';
import { DISCLAIMER } from '../foot.ts';
import { newPage, type Page, rule, write } from '../page.ts';
import { readableName, SIDE_IN_WORDS } from '../words.ts';
import { type LetterContent, letterContent } from './letter-content.ts';
import type { Room, Section } from './letter-words.ts';
import { bandHeight, sectionHeight, setBand, setSection } from './set-type.ts';
import { pseudonymOf, withoutIdentity } from './without-identity.ts';

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

const LEFT = 28;
const WIDTH = 539;
const GAP = 19;
const COLUMN = (WIDTH - GAP) / 2;
const TOP = 95;
const BOTTOM = 784;

/** Setting of the page: how much is told, and how large. */
interface Setting {
  readonly room: Room;
  readonly size: number;
}

/** From the most and largest to the least: more is told before the type shrinks under what is read with ease. */
const SETTINGS: readonly Setting[] = [
  { entries: 6, letters: 160, sizes: [9, 8.5, 8] },
  { entries: 4, letters: 100, sizes: [8.5, 8, 7.5] },
  { entries: 3, letters: 60, sizes: [8, 7.5, 7] },
  { entries: 2, letters: 40, sizes: [7.5, 7, 6.5, 6] },
].flatMap(({ entries, letters, sizes }) => sizes.map((size) => ({ room: { entries, letters }, size })));

/**
 * The work-up of one failed knee on one A4 page, to refer it: side in words and large, the gate, history, what is implanted,
 * classes of infection with values, causes with evidence, what is not known. Readable in black and white; what does not fit is
 * shortened and says so. Same request, same bytes.
 */
export function workUpLetter(request: LetterRequest): Promise<Uint8Array> {
  const { identity, madeAt } = request;
  const file = identity ? request.case : withoutIdentity(request.case);
  const page = newPage(`${SIDE_IN_WORDS[file.side]} - work-up`, madeAt);
  const bytes = collected(page);
  head(page, { ...request, case: file });
  const told = (room: Room) => letterContent({ file, reading: request.reading, day: madeAt.slice(0, 10) }, room);
  const last = SETTINGS.at(-1)!;
  const setting = SETTINGS.find(({ room, size }) => heightOf(page, told(room), size) <= BOTTOM - TOP) ?? last;
  setPage(page, told(setting.room), setting.size);
  rule(page, { x: LEFT, y: 790, width: WIDTH }, 1.2);
  write(page, DISCLAIMER, {
    box: { x: LEFT, y: 795, width: WIDTH, height: 26 },
    style: { size: 9, least: 7, weight: 'bold' },
  });
  page.end();
  return bytes;
}

const AFTER_BAND = 9;

function heightOf(page: Page, content: LetterContent, size: number): number {
  const height = (sections: readonly Section[], width: number) =>
    sections.reduce((sum, s) => sum + sectionHeight(page, s, { x: 0, y: 0, width, size }), 0);
  const band = bandHeight(page, content.gate, { width: WIDTH, size });
  const columns = Math.max(height(content.left, COLUMN), height(content.right, COLUMN));
  return band + AFTER_BAND + columns + height(content.below, WIDTH);
}

/** Spare height is shared out between the sections of the full width, so that the page stands even. */
function setPage(page: Page, content: LetterContent, size: number): void {
  const spare = Math.max(0, BOTTOM - TOP - heightOf(page, content, size));
  const air = Math.min(12, spare / (content.below.length + 1));
  let y =
    setBand(page, { word: content.verdict, lines: content.gate }, { x: LEFT, y: TOP, width: WIDTH, size }) + AFTER_BAND;
  const column = (sections: readonly Section[], x: number) =>
    sections.reduce((at, s) => setSection(page, s, { x, y: at, width: COLUMN, size }), y);
  y = Math.max(column(content.left, LEFT), column(content.right, LEFT + COLUMN + GAP)) + air;
  for (const section of content.below) y = setSection(page, section, { x: LEFT, y, width: WIDTH, size }) + air;
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
  const name = identity ? readableName(file.patient.name ?? '') || 'No name given' : pseudonymOf(file);
  write(page, name, { box: { ...column, y: 22, height: 20 }, style: { size: 15, least: 8, weight: 'bold' } });
  write(page, factsOf(file, identity).join(' · '), {
    box: { ...column, y: 42, height: 12 },
    style: { size: 9, least: 6 },
  });
  write(page, to ? `To: ${to}` : 'For referral or discussion', {
    box: { ...column, y: 55, height: 12 },
    style: { size: 9, least: 6.5 },
  });
  write(page, `Made ${madeAt.slice(0, 16).replace('T', ' ')} UTC`, {
    box: { ...column, y: 69, height: 11 },
    style: { size: 8 },
  });
}

function factsOf({ patient, invented }: CaseFile, identity: boolean): readonly string[] {
  const who = identity
    ? [
        patient.id ? `No. ${patient.id}` : 'no patient number',
        patient.birthDate ? `born ${patient.birthDate}` : 'date of birth not given',
        ...(patient.sex ? [patient.sex] : []),
      ]
    : ['identity left out'];
  return [...who, ...(invented ? ['invented demonstration case'] : [])];
}
