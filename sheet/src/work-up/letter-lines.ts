import { CAUSES } from '@gapline/core/failure/causes.ts';
import { hostFindings } from '@gapline/core/host/optimise.ts';
import { nextTests } from '@gapline/core/infection/next-test.ts';
import { analyte } from '@gapline/core/laboratory/analyte.ts';
import type { LabReading } from '@gapline/core/laboratory/lab-result.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { WorkUpReading } from '@gapline/core/work-up/read-work-up.ts';

/** What the letter says of one case, in lines of plain words: the drawing only places them. */
export interface LetterLines {
  readonly history: readonly string[];
  readonly implanted: readonly string[];
  readonly values: readonly string[];
  /** The definitions shown first, one line each, then the others in one. */
  readonly infection: readonly string[];
  readonly cautions: readonly string[];
  readonly wouldChange: readonly string[];
  readonly causes: readonly string[];
  readonly gate: readonly string[];
  readonly complexity: readonly string[];
  readonly host: readonly string[];
}

const words = (id: string): string => id.replaceAll('-', ' ');
const NOT_ENTERED = 'Nothing entered.';
const orNone = (lines: readonly string[], none = NOT_ENTERED): readonly string[] => (lines.length > 0 ? lines : [none]);

/** "1.7 and 2 more" where a list is longer than the page can hold. */
export function shortened(items: readonly string[], most: number): string {
  const more = items.length - most;
  return more > 0 ? `${items.slice(0, most).join('; ')}; and ${more} more` : items.join('; ');
}

function history(file: CaseFile): readonly string[] {
  const h = file.workUp?.history ?? {};
  const operations = (h.operations ?? []).map(
    (o) => `${o.on ?? 'undated'} ${words(o.kind)}${o.note ? ` (${o.note})` : ''}`,
  );
  const symptoms = Object.entries(h.symptoms ?? {})
    .filter(([, k]) => k === 'yes')
    .map(([id]) => words(id));
  const { flexionDeg, extensionDeficitDeg, activeLagDeg } = h.examination ?? {};
  const motion = [
    ...(flexionDeg === undefined ? [] : [`flexion ${flexionDeg} deg`]),
    ...(extensionDeficitDeg === undefined ? [] : [`deficit ${extensionDeficitDeg} deg`]),
    ...(activeLagDeg === undefined ? [] : [`lag ${activeLagDeg} deg`]),
  ];
  return orNone([
    ...(operations.length > 0 ? [`Operations: ${shortened(operations, 4)}.`] : []),
    ...(h.painCourse && h.painCourse !== 'unknown' ? [`Pain: ${words(h.painCourse)}.`] : []),
    ...(symptoms.length > 0 ? [`Symptoms: ${shortened(symptoms, 6)}.`] : []),
    ...(motion.length > 0 ? [`Motion: ${motion.join(', ')}.`] : []),
    ...(h.asa === undefined ? [] : [`ASA ${h.asa}.`]),
  ]);
}

function implanted(file: CaseFile): readonly string[] {
  const parts = (file.workUp?.history?.parts ?? []).map((p) =>
    [
      words(p.part),
      p.fixation === 'unknown' ? 'fixation not known' : p.fixation,
      p.reference,
      ...(p.features ?? []).map(words),
    ]
      .filter(Boolean)
      .join(', '),
  );
  return orNone(parts.length > 0 ? [`${shortened(parts, 5)}.`] : []);
}

const shown = (r: LabReading): string =>
  r.of.kind === 'word'
    ? r.of.word
    : `${r.of.comparator ?? ''}${Number(r.of.value.toPrecision(4))} ${r.unit ?? ''}`.trim();

function values({ infection }: WorkUpReading): readonly string[] {
  const lines = infection.observed.lab.map((a) => {
    const raw = a.inUse.used.map((r) => `${shown(r)} (${r.takenOn ?? 'undated'})`).join(', ');
    const corrected =
      a.corrected && a.test === 'synovial-wbc' ? `, corrected for blood ${Math.round(a.corrected.wbc)} /uL` : '';
    return `${analyte(a.inUse.used[0]!.analyte).label}: ${raw}${corrected}`;
  });
  const faults = infection.observed.series.marked.length;
  return orNone([...lines, ...(faults > 0 ? [`${faults} entered, not used: value, unit or date at fault`] : [])]);
}

function definitions({ infection }: WorkUpReading): readonly string[] {
  const line = (a: (typeof infection.assessments)[number]) =>
    `${a.name}: ${a.class.label}${a.score ? `, ${a.score.soFar} points so far (${a.score.atLeast} to ${a.score.atMost} possible)` : ''}${a.settled ? '' : ', not settled'}.`;
  const others = infection.assessments.slice(2).map((a) => `${a.name}: ${a.class.label}`);
  return [...infection.assessments.slice(0, 2).map(line), `Others: ${others.join('; ')}.`];
}

function wouldChange({ infection }: WorkUpReading): readonly string[] {
  const { tests } = nextTests(infection.observed.known, {
    horizon: 'before',
    definitions: ['parvizi-2018', 'ebjis-2021'],
  });
  const useful = tests.filter((t) => t.changesAtOnce.length > 0).map((t) => t.label);
  return useful.length > 0
    ? [`By itself: ${shortened(useful, 6)}.`]
    : ['No single further result before the operation.'];
}

function causes(file: CaseFile, reading: WorkUpReading): readonly string[] {
  const named = file.workUp?.causes ?? [];
  return orNone(
    named.map((n) => {
      const weighed = reading.causes.find((c) => c.id === n.cause);
      const label = CAUSES.find((c) => c.id === n.cause)?.label ?? n.cause;
      const list = (items: readonly { readonly finding: string }[] | undefined) =>
        shortened(
          (items ?? []).map((i) => i.finding.toLowerCase()),
          3,
        ) || 'none';
      return `${label}: ${n.reason}. For: ${list(weighed?.supports)}. Against: ${list(weighed?.contradicts)}. Not looked for: ${weighed?.notLookedFor.length ?? 0} items.`;
    }),
    'No cause is named yet.',
  );
}

function gateLines(file: CaseFile, { gate, infectionStanding }: WorkUpReading): readonly string[] {
  const decided = file.workUp?.infectionDecision;
  return [
    gate.ready
      ? 'Ready to plan: infection settled, a cause named.'
      : `Not ready: ${shortened(
          gate.open.map((o) => o.what.replace(/\.$/, '')),
          4,
        )}.`,
    decided
      ? `Infection ${words(infectionStanding)}, settled by ${decided.by} on ${decided.on}: ${decided.reason}.`
      : `Infection: ${words(infectionStanding)} by the definitions; not settled by a person.`,
    ...(gate.referralProposed
      ? [
          'Unexplained pain: referral is proposed. 41 % good or excellent after exploring 27 such knees (Mont 1996, from memory).',
        ]
      : []),
    ...(gate.overridden ? [`Going on all the same: ${file.workUp?.overrideReason ?? ''}.`] : []),
  ];
}

function complexity({ complexity: c }: WorkUpReading): readonly string[] {
  const hits = c.hits.map((h) => `${h.domain.toLowerCase()}: ${h.because}`);
  return [
    `A prompt, not a published checklist. Level ${c.level} of 3${c.discussAsThree ? ', discuss as 3' : ''}${hits.length > 0 ? `: ${shortened(hits, 4)}` : ''}.`,
    ...(c.meetingAsked ? ['A regional meeting is asked for (infection, bone loss or re-revision).'] : []),
    ...(c.notKnown.length > 0 ? [`Not known: ${shortened(c.notKnown, 6)}.`] : []),
  ];
}

function host(file: CaseFile): readonly string[] {
  const h = file.workUp?.history ?? {};
  const act = hostFindings(h.hostValues ?? {}, h.surgeryOn ?? null).filter((f) => f.standing === 'act');
  return orNone(
    act.map(
      (f) =>
        `${f.factor.label} ${f.value} ${f.factor.unit}: ${f.factor.correct}${f.beginBy ? ` Begin by ${f.beginBy}.` : ''}`,
    ),
    'Nothing among the values entered.',
  );
}

/** WU-10: the work-up as the lines of one page; long lists say how many more there are, missing is said to be missing. */
export function letterLines(file: CaseFile, reading: WorkUpReading): LetterLines {
  const cautions = reading.infection.cautions.map((c) => c.text);
  return {
    history: history(file),
    implanted: implanted(file),
    values: values(reading),
    infection: definitions(reading),
    cautions: cautions.length > 0 ? [shortened(cautions, 3)] : ['None.'],
    wouldChange: wouldChange(reading),
    causes: causes(file, reading),
    gate: gateLines(file, reading),
    complexity: complexity(reading),
    host: host(file),
  };
}
