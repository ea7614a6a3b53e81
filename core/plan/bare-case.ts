import type { CaseFile } from './case.ts';

/** For tests: a right knee of which nothing is known, without films. */
export const bareCase: CaseFile = {
  format: 'gapline-case',
  version: '1.0',
  id: 'one',
  title: 'Trial',
  side: 'right',
  patient: {},
  films: [],
  marks: [],
};
