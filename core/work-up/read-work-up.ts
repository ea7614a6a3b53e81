import type { MeasuredEvidence } from '../failure/evidence-from-measurements.ts';
import { EVIDENCE, type EvidenceId } from '../failure/evidence-table.ts';
import { type GateAnswer, gate } from '../failure/gate.ts';
import { type StiffnessGrade, stiffnessGrade } from '../failure/stiffness.ts';
import { type EvidenceRecord, type Looked, type WeighedCause, weighEvidence } from '../failure/weigh-evidence.ts';
import { type WorkUp as InfectionReading, workUp as readInfection } from '../infection/work-up.ts';
import { type ComplexityFacts, type ComplexityPrompt, complexityPrompt } from './complexity.ts';
import { type ExtensionOpening, evidenceFromHistory } from './evidence-from-history.ts';
import { evidenceFromInfection } from './evidence-from-infection.ts';
import { evidenceFromLucentLines, type LucentReadings, lucentReadings } from './evidence-from-lucent-lines.ts';
import type { WorkUp } from './work-up.ts';

/** What the rest of the case adds to the work-up. */
export interface WorkUpSurroundings {
  /** Day of reading, `YYYY-MM-DD`: no clock is read here. */
  readonly today: string;
  readonly measured: readonly MeasuredEvidence[];
  readonly extensionOpening?: ExtensionOpening;
  readonly bone?: Pick<ComplexityFacts, 'femurClass' | 'tibiaClass' | 'mcl' | 'extensorMechanism'>;
}

/** One item of evidence with where it comes from; `overrides` when a hand entry contradicts what was derived. */
export interface ReadEvidence {
  readonly id: EvidenceId;
  readonly finding: string;
  readonly looked: Looked;
  readonly from: 'by-hand' | 'films' | 'history' | 'infection' | 'lucent-lines' | 'nowhere';
  readonly because: string | null;
  readonly film: string | null;
  readonly overrides: { readonly looked: Looked; readonly because: string } | null;
}

export interface WorkUpReading {
  readonly infection: InfectionReading;
  /** What the surgeon settled, or the definitions' standing while nothing is settled. */
  readonly infectionStanding: InfectionReading['standing'];
  readonly evidence: readonly ReadEvidence[];
  readonly causes: readonly WeighedCause[];
  readonly gate: GateAnswer;
  readonly complexity: ComplexityPrompt;
  /** Both readings of every component whose lucent lines were charted. */
  readonly lucentLines: LucentReadings;
  readonly stiffness: { readonly grade: StiffnessGrade; readonly atLeast: boolean } | null;
}

interface Derived {
  readonly looked: Looked;
  readonly from: ReadEvidence['from'];
  readonly because: string;
  readonly film: string | null;
}

/** Hand entry first, then films, infection, history; a hand entry that contradicts keeps what it overrides. */
function readOne(
  id: EvidenceId,
  finding: string,
  hand: Looked | undefined,
  derived: Derived | undefined,
): ReadEvidence {
  if (hand !== undefined && hand !== 'unknown') {
    const against = derived && derived.looked !== hand ? { looked: derived.looked, because: derived.because } : null;
    return { id, finding, looked: hand, from: 'by-hand', because: null, film: null, overrides: against };
  }
  if (derived) return { id, finding, ...derived, overrides: null };
  return { id, finding, looked: 'unknown', from: 'nowhere', because: null, film: null, overrides: null };
}

/**
 * WU-5: the whole work-up read at once: infection by every definition, evidence from hand, films, history and laboratory
 * (a hand entry wins and shows what it contradicts), causes weighed without verdict, the gate, and the prompt about
 * complexity. Pure: the same record and day give the same reading. The surgeon's own decision on infection, where one
 * is written, is what the gate reads; the definitions stand beside it unchanged.
 */
export function readWorkUp(record: WorkUp, around: WorkUpSurroundings): WorkUpReading {
  const findings = record.infection ?? {};
  const history = record.history ?? {};
  const infection = readInfection(findings, around.today);
  const derived = new Map<EvidenceId, Derived>();
  for (const d of evidenceFromHistory(history, around.extensionOpening))
    derived.set(d.id, { ...d, from: 'history', film: null });
  for (const d of evidenceFromInfection(findings, infection))
    derived.set(d.id, { ...d, from: 'infection', film: null });
  for (const d of evidenceFromLucentLines(record.lucentLines))
    derived.set(d.id, { ...d, from: 'lucent-lines', film: null });
  for (const m of around.measured)
    if (m.looked !== 'unknown')
      derived.set(m.id, { looked: m.looked, from: 'films', because: m.because, film: m.film });
  const evidence = EVIDENCE.map((e) => readOne(e.id, e.finding, record.evidence?.[e.id], derived.get(e.id)));
  const merged = Object.fromEntries(evidence.map((e) => [e.id, e.looked])) as EvidenceRecord;
  const infectionStanding = record.infectionDecision?.standing ?? infection.standing;
  const infected =
    infectionStanding === 'confirmed' || infectionStanding === 'likely'
      ? 'yes'
      : infectionStanding === 'excluded'
        ? 'no'
        : 'unknown';
  return {
    infection,
    infectionStanding,
    evidence,
    causes: weighEvidence(merged, record.strengths),
    gate: gate({
      infection: infectionStanding,
      named: record.causes ?? [],
      evidence: merged,
      ...(record.overrideReason === undefined ? {} : { overrideReason: record.overrideReason }),
    }),
    complexity: complexityPrompt({
      ...around.bone,
      infected,
      earlierRevisions: (history.operations ?? []).filter((o) => o.kind === 'revision').length,
      history,
    }),
    lucentLines: lucentReadings(record.lucentLines),
    stiffness: stiffnessGrade(
      history.examination?.flexionDeg ?? null,
      history.examination?.extensionDeficitDeg ?? null,
    ),
  };
}
