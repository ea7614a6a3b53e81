import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { WorkUpReading } from '@gapline/core/work-up/read-work-up.ts';
import {
  causesSection,
  complexitySection,
  filmsSection,
  gateLines,
  notKnownSection,
  verdictOf,
} from './letter-causes.ts';
import { examinationSection, historySection, implantedSection, patientSection } from './letter-history.ts';
import { cautionsSection, definitionsSection, resultsSection, wouldChangeSection } from './letter-infection.ts';
import type { Line, Room, Section } from './letter-words.ts';

/** What the letter says, in the places where it says it: the drawing only sets the type. */
export interface LetterContent {
  readonly verdict: string;
  readonly gate: readonly Line[];
  /** Left column: the knee. */
  readonly left: readonly Section[];
  /** Right column: infection, then the patient. */
  readonly right: readonly Section[];
  /** Full width: causes, complexity, what is not known. */
  readonly below: readonly Section[];
}

/**
 * WU-10: the work-up as one page of plain words. Long lists say how many more there are, free texts are cut, missing is
 * said to be missing. `day` is YYYY-MM-DD, for the age; `room` how much there is place for.
 */
export function letterContent(
  { file, reading, day }: { readonly file: CaseFile; readonly reading: WorkUpReading; readonly day: string },
  room: Room,
): LetterContent {
  const record = file.workUp ?? {};
  const history = record.history ?? {};
  return {
    verdict: verdictOf(reading),
    gate: gateLines(record, reading, room),
    left: [
      historySection(history, room),
      examinationSection(file, reading, room),
      implantedSection(history, room),
      filmsSection(reading, room),
    ],
    right: [
      definitionsSection(reading),
      resultsSection(record, reading, room),
      cautionsSection(reading, room),
      wouldChangeSection(reading, room),
      patientSection(file, day, room),
    ],
    below: [causesSection(record, reading, room), complexitySection(reading, room), notKnownSection(reading, room)],
  };
}
