import type { CaseFile } from '@gapline/core/plan/case.ts';
import { type Page, rule, write } from './page.ts';
import { readableName, SIDE_IN_WORDS } from './words.ts';

interface Headed {
  readonly file: CaseFile;
  readonly madeAt: string;
  /** What this paper is, under the side. */
  readonly title: string;
  /** After the time at which it was made, such as the plan's number. */
  readonly after?: string;
}

/** Side in words and large, then who. */
export function header(page: Page, { file, madeAt, title, after = '' }: Headed): void {
  page.rect(28, 24, 226, 44).fill('black');
  write(page, SIDE_IN_WORDS[file.side], {
    box: { x: 28, y: 30, width: 226, height: 36 },
    style: { size: 28, weight: 'bold', align: 'center', grey: 'white' },
  });
  write(page, title, {
    box: { x: 28, y: 71, width: 226, height: 12 },
    style: { size: 8.5, align: 'center' },
  });
  const { patient } = file;
  const sex = patient.sex === undefined ? '' : patient.sex === 'female' ? 'female' : 'male';
  const facts = [
    patient.id ? `No. ${patient.id}` : 'no patient number',
    patient.birthDate ? `born ${patient.birthDate}` : 'date of birth not given',
    ...(sex ? [sex] : []),
  ];
  const column = { x: 266, width: 301 };
  write(page, patient.name ? readableName(patient.name) : 'No name given', {
    box: { ...column, y: 22, height: 20 },
    style: { size: 15, least: 8, weight: 'bold' },
  });
  write(page, facts.join(' · '), { box: { ...column, y: 42, height: 12 }, style: { size: 9, least: 7 } });
  const invented = file.invented ? ' (invented demonstration case)' : '';
  write(page, `${file.title}${invented}`, { box: { ...column, y: 55, height: 12 }, style: { size: 9, least: 6.5 } });
  write(page, `Made ${madeAt.slice(0, 16).replace('T', ' ')} UTC${after && ` · ${after}`}`, {
    box: { ...column, y: 69, height: 11 },
    style: { size: 8 },
  });
  rule(page, { x: 28, y: 86, width: 539 }, 1.2);
}
