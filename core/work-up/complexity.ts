import type { Known } from '../measure/known.ts';
import type { HardFeature, History } from './history.ts';

/** Facts of the case that decide how hard it is; absent = unknown. */
export interface ComplexityFacts {
  readonly femurClass?: '1' | '2A' | '2B' | '3';
  readonly tibiaClass?: '1' | '2A' | '2B' | '3';
  readonly mcl?: 'intact' | 'attenuated' | 'absent' | 'unknown';
  readonly extensorMechanism?: 'intact' | 'attenuated' | 'absent' | 'unknown';
  readonly infected?: Known;
  readonly earlierRevisions: number;
  readonly history: History;
}

export type ComplexityLevel = 1 | 2 | 3;

export interface ComplexityHit {
  readonly domain: string;
  readonly level: ComplexityLevel;
  readonly because: string;
}

export interface ComplexityPrompt {
  /** Highest level hit; 1 when nothing is hit. */
  readonly level: ComplexityLevel;
  readonly hits: readonly ComplexityHit[];
  /** Two or more hits of level 2: discuss as if level 3. */
  readonly discussAsThree: boolean;
  /** National standard: infection, significant bone loss and any re-revision go to a regional meeting. */
  readonly meetingAsked: boolean;
  readonly notKnown: readonly string[];
}

const HARD: readonly HardFeature[] = ['sleeve', 'cone', 'ingrown-stem'];

function boneHit(bone: string, c: ComplexityFacts['femurClass']): ComplexityHit[] {
  if (c === '3') return [{ domain: 'Bone', level: 3, because: `${bone} class 3` }];
  return c === '2B' ? [{ domain: 'Bone', level: 2, because: `${bone} class 2B` }] : [];
}

function hitsOf(f: ComplexityFacts): ComplexityHit[] {
  const features = new Set((f.history.parts ?? []).flatMap((p) => p.features ?? []));
  const scars = f.history.scars?.length ?? 0;
  const stemmed = (f.history.parts ?? []).some((p) => p.part === 'femoral-stem' || p.part === 'tibial-stem');
  const hit = (when: boolean, domain: string, level: ComplexityLevel, because: string): ComplexityHit[] =>
    when ? [{ domain, level, because }] : [];
  return [
    ...hit(f.infected === 'yes' && f.earlierRevisions > 0, 'Indication', 3, 'infection after an earlier revision'),
    ...hit(f.infected === 'yes' && f.earlierRevisions === 0, 'Indication', 2, 'infection'),
    ...hit(f.earlierRevisions >= 2, 'Indication', 3, `${f.earlierRevisions} earlier revisions`),
    ...boneHit('femur', f.femurClass),
    ...boneHit('tibia', f.tibiaClass),
    ...hit(f.mcl === 'absent', 'Ligaments', 3, 'medial collateral absent'),
    ...hit(f.mcl === 'attenuated', 'Ligaments', 2, 'medial collateral attenuated'),
    ...hit(f.extensorMechanism === 'absent', 'Extensor mechanism', 3, 'extensor mechanism disrupted'),
    ...hit(f.extensorMechanism === 'attenuated', 'Extensor mechanism', 2, 'extensor mechanism weak'),
    ...hit(scars > 1, 'Soft tissue', 2, `${scars} scars`),
    ...hit(
      HARD.some((x) => features.has(x)),
      'Implant in place',
      3,
      'sleeve, cone or ingrown stem',
    ),
    ...hit(stemmed && !HARD.some((x) => features.has(x)), 'Implant in place', 2, 'stemmed component'),
    ...hit((f.history.asa ?? 0) >= 4, 'Patient', 3, `ASA ${f.history.asa}`),
    ...hit(f.history.asa === 3, 'Patient', 2, 'ASA 3'),
  ];
}

/**
 * WU-3: a prompt about complexity, from 1 (simpler) to 3 (salvage). It is a prompt of our own, not any published
 * checklist: the logic is common practice, no source. Two hits of level 2 ask for the discussion of level 3.
 * WU-4: infection, bone loss of class 2B or 3, or any re-revision ask for a regional meeting before sets are ordered
 * (national standard for revision of knee replacement, 2020).
 */
export function complexityPrompt(f: ComplexityFacts): ComplexityPrompt {
  const hits = hitsOf(f);
  const level = Math.max(1, ...hits.map((h) => h.level)) as ComplexityLevel;
  const boneLoss = [f.femurClass, f.tibiaClass].some((c) => c === '2B' || c === '3');
  const notKnown = [
    ...(f.femurClass === undefined ? ['bone class of the femur'] : []),
    ...(f.tibiaClass === undefined ? ['bone class of the tibia'] : []),
    ...(f.mcl === undefined || f.mcl === 'unknown' ? ['medial collateral ligament'] : []),
    ...(f.extensorMechanism === undefined || f.extensorMechanism === 'unknown' ? ['extensor mechanism'] : []),
    ...(f.infected === undefined || f.infected === 'unknown' ? ['infection'] : []),
    ...(f.history.asa === undefined ? ['ASA class'] : []),
  ];
  return {
    level,
    hits: hits.toSorted((a, b) => b.level - a.level),
    discussAsThree: level < 3 && hits.filter((h) => h.level === 2).length >= 2,
    meetingAsked: f.infected === 'yes' || boneLoss || f.earlierRevisions > 0,
    notKnown,
  };
}
