import { causeLabel, openEvidence } from '@gapline/core/failure/gate.ts';
import { LUCENT_COMPONENTS } from '@gapline/core/failure/lucent-lines.ts';
import type { BearingItem, EvidenceRecord } from '@gapline/core/failure/weigh-evidence.ts';
import type { ReadEvidence, WorkUpReading } from '@gapline/core/work-up/read-work-up.ts';
import type { WorkUp } from '@gapline/core/work-up/work-up.ts';
import { brief, fewer, type Line, plain, type Room, type Section, shortened } from './letter-words.ts';

const STANDING: Readonly<Record<WorkUpReading['infectionStanding'], string>> = {
  excluded: 'excluded',
  confirmed: 'CONFIRMED',
  likely: 'LIKELY',
  'not-classifiable': 'cannot be classified',
  'not-assessed': 'not assessed',
};

/** The gate in one word, and why. */
export function verdictOf({ gate }: WorkUpReading): string {
  if (!gate.ready) return 'NOT READY';
  return gate.overridden ? 'GOING ON FOR A WRITTEN REASON' : 'READY TO PLAN';
}

export function gateLines(record: WorkUp, { gate, infectionStanding }: WorkUpReading, room: Room): readonly Line[] {
  const decided = record.infectionDecision;
  const by = decided
    ? `decided by ${brief(decided.by, room.letters)} on ${decided.on}: ${brief(decided.reason, room.letters)}`
    : 'by the definitions; no person has signed for it';
  return [
    { strong: 'Infection ', text: `${STANDING[infectionStanding]}, ${by}.` },
    ...namedLine(record),
    ...fewer(
      gate.open.map((o): Line => ({ strong: 'Missing ', text: `${o.what} ${o.wouldChange}` })),
      room.entries,
      (more) => ({ text: `and ${more} more.` }),
    ),
    ...(gate.referralProposed
      ? [
          {
            text: 'Unexplained pain: referral is proposed. Of 27 such knees explored 41 % did well (Mont 1996, from memory).',
          },
        ]
      : []),
    ...(gate.overridden
      ? [{ strong: 'Reason ', text: `${brief(record.overrideReason ?? '', 2 * room.letters)}.` }]
      : []),
  ];
}

function namedLine({ causes = [] }: WorkUp): readonly Line[] {
  const labels = causes.map((c) => causeLabel(c.cause)).map((l) => `${l.charAt(0).toLowerCase()}${l.slice(1)}`);
  return labels.length === 0 ? [] : [{ strong: 'Cause ', text: `${shortened(labels, 4)}.` }];
}

const found = (items: readonly BearingItem[], most: number): string =>
  shortened(
    items.map((i) => `${i.finding.charAt(0).toLowerCase()}${i.finding.slice(1)}`),
    most,
  ) || 'nothing found';

/** Each cause that the surgeon names, with what speaks for and against it. */
export function causesSection(record: WorkUp, reading: WorkUpReading, room: Room): Section {
  const named = record.causes ?? [];
  const more = named.length - (room.entries + 1);
  const lines = named.slice(0, room.entries + 1).flatMap((n): readonly Line[] => {
    const weighed = reading.causes.find((c) => c.id === n.cause);
    if (!weighed) return [];
    return [
      { strong: `${causeLabel(n.cause)}. `, text: `${brief(n.reason, 2 * room.letters) || 'No reason written'}.` },
      {
        text: `For: ${found(weighed.supports, room.entries)}. Against: ${found(weighed.contradicts, room.entries)}. Not looked for: ${weighed.notLookedFor.length === 0 ? 'nothing' : found(weighed.notLookedFor, 2)}.`,
      },
    ];
  });
  return {
    title: 'WHY IT FAILED, AS THE SURGEON NAMES IT',
    lines: [
      ...(lines.length === 0 ? [{ text: 'No cause is named yet.' }] : lines),
      ...(more > 0 ? [{ text: `and ${more} more causes.` }] : []),
    ],
  };
}

const READING_1989: Readonly<Record<string, string>> = {
  'probably-not-significant': 'probably not significant',
  'follow-closely': 'follow closely',
  'possible-or-impending-failure': 'possible or impending failure',
};

const COMPONENTS = {
  femur: 'femur',
  'tibia-ap': 'tibia AP',
  'tibia-lateral': 'tibia lateral',
  patella: 'patella',
} as const;

/** As one writes it by hand: 3.7° ± 0.3. */
const asWritten = (text: string): string => text.replaceAll(' +/- ', ' ± ').replaceAll(' deg', '°');

/** What the films show, each finding with its numbers. */
export function filmsSection({ evidence, lucentLines }: WorkUpReading, room: Room): Section {
  const present = evidence.filter((e) => e.from === 'films' && e.looked === 'present');
  const lines = LUCENT_COMPONENTS.flatMap((component): readonly Line[] => {
    const read = lucentLines[component];
    if (!read) return [];
    const name = `Lucent lines, ${COMPONENTS[component]} `;
    if (!read.ok) return [{ strong: name, text: read.reason.message }];
    const { sumMm, reading1989, reading2015, zonesNotLookedAt } = read.value;
    const facts = [
      `${Number(sumMm.toFixed(1))} mm in sum`,
      ...(reading1989 ? [`1989: ${READING_1989[reading1989] ?? reading1989}`] : []),
      `2015: ${plain(reading2015.extent)}, ${reading2015.width === 'none' ? 'no line' : plain(reading2015.width)}`,
      ...(zonesNotLookedAt > 0 ? [`${zonesNotLookedAt} zone${zonesNotLookedAt === 1 ? '' : 's'} not looked at`] : []),
    ];
    return [{ strong: name, text: `${facts.join('; ')}.` }];
  });
  const told = present.map((e): Line => ({ strong: `${e.finding}. `, text: asWritten(e.because ?? '') }));
  const all = fewer([...told, ...lines], room.entries + 2, (more) => ({ text: `and ${more} more.` }));
  return { title: 'FILMS', lines: all.length === 0 ? [{ text: 'No finding beyond its limits and its spread.' }] : all };
}

export function complexitySection({ complexity: c }: WorkUpReading, room: Room): Section {
  const hits = c.hits.map((h) => `${h.domain.toLowerCase()}: ${h.because}`);
  const asked = c.discussAsThree ? ', two at level 2: discuss as level 3' : '';
  return {
    title: 'COMPLEXITY (a prompt of our own, no published checklist)',
    lines: [
      {
        strong: `Level ${c.level} of 3${asked}. `,
        text: hits.length > 0 ? `${shortened(hits, room.entries)}.` : 'Nothing raises it.',
      },
      ...(c.meetingAsked
        ? [
            {
              strong: 'Regional meeting asked for ',
              text: 'before sets are ordered (infection, bone loss or re-revision).',
            },
          ]
        : []),
    ],
  };
}

/** What nobody has looked for, what would weigh most first. */
export function notKnownSection({ evidence, complexity }: WorkUpReading, room: Room): Section {
  const record = Object.fromEntries(evidence.map((e: ReadEvidence) => [e.id, e.looked])) as EvidenceRecord;
  const open = openEvidence(record).map((e) => `${e.finding.charAt(0).toLowerCase()}${e.finding.slice(1)}`);
  const unsure = complexity.notKnown;
  return {
    title: 'NOT KNOWN, heaviest first',
    lines: [
      { text: open.length === 0 ? 'Everything on the list was looked for.' : `${shortened(open, room.entries + 1)}.` },
      ...(unsure.length > 0 ? [{ strong: 'For the prompt ', text: `${shortened(unsure, room.entries + 1)}.` }] : []),
    ],
  };
}
