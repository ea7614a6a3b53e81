import type { CaseFile } from '@gapline/core/plan/case.ts';
import { makePlan } from '@gapline/core/plan/make-plan.ts';
import { surroundingsOf } from '@gapline/core/plan/surroundings.ts';
import { readWorkUp } from '@gapline/core/work-up/read-work-up.ts';
import { workUpLetter } from '@gapline/sheet/src/work-up/work-up-letter.ts';

export interface LetterWanted {
  readonly identity: boolean;
  readonly to?: string;
  readonly madeAt: string;
}

/** The letter of a case as it is saved now; what the films say is measured anew. */
export function writeLetter(file: CaseFile, wanted: LetterWanted): Promise<Uint8Array> {
  const around = surroundingsOf(file, makePlan(file, null), wanted.madeAt.slice(0, 10));
  return workUpLetter({ case: file, reading: readWorkUp(file.workUp ?? {}, around), ...wanted });
}
