import type { InfectionFindings } from '../infection/findings.ts';
import type { WorkUp as InfectionReading } from '../infection/work-up.ts';
import type { LabReading } from '../laboratory/lab-result.ts';
import type { DerivedEvidence } from './evidence-from-history.ts';

const CRP_LIMIT = 10;
const ESR_LIMIT = 30;
const SYNOVIAL_WBC_LIMIT = 1500;
const SYNOVIAL_PMN_LIMIT = 65;

/** The value that the definitions compared: corrected for blood where that was possible; null where none or several. */
function used(reading: InfectionReading, test: string): number | null {
  const answer = reading.observed.lab.find((a) => a.test === test);
  if (!answer) return null;
  if (answer.corrected) return test === 'synovial-wbc' ? answer.corrected.wbc : answer.corrected.pmnPercent;
  const values = answer.inUse.used.map((r: LabReading) => (r.of.kind === 'number' ? r.of.value : null));
  return values.length === 1 ? (values[0] ?? null) : null;
}

/**
 * WU-2: what the work-up for infection says about causes: a definition met, infection unlikely after a full work-up, a
 * sinus, a wound problem, both serum markers raised (another cause must be excluded by the reader), synovial counts low.
 * Limits are those of the evidence table (CRP 10 mg/L, ESR 30 mm/h, 1,500 cells, 65 %).
 */
export function evidenceFromInfection(
  findings: InfectionFindings,
  reading: InfectionReading,
): readonly DerivedEvidence[] {
  const out: DerivedEvidence[] = [];
  const say = (id: DerivedEvidence['id'], present: boolean, because: string) =>
    out.push({ id, looked: present ? 'present' : 'absent', because });
  if (findings.sinus === 'yes' || findings.sinus === 'no')
    say('sinus-or-exposed-implant', findings.sinus === 'yes', 'Sinus or implant seen.');
  if (findings.woundHealingProblem === 'yes' || findings.woundHealingProblem === 'no')
    say('wound-problem-after-index', findings.woundHealingProblem === 'yes', 'Healing of the wound.');
  if (reading.standing === 'confirmed') say('definition-confirms-infection', true, 'A definition shown first is met.');
  if (reading.standing === 'excluded') {
    say('definition-confirms-infection', false, 'No definition shown first is met.');
    say('infection-unlikely-full-work-up', true, 'Unlikely by EBJIS 2021, excluded by the 2018 definition.');
  }
  const [crp, esr] = [used(reading, 'crp'), used(reading, 'esr')];
  if (crp !== null && esr !== null)
    say('crp-and-esr-raised', crp > CRP_LIMIT && esr > ESR_LIMIT, `CRP ${crp} mg/L, ESR ${esr} mm/h.`);
  const [wbc, pmn] = [used(reading, 'synovial-wbc'), used(reading, 'synovial-pmn')];
  if (wbc !== null && pmn !== null)
    say(
      'synovial-counts-low',
      wbc < SYNOVIAL_WBC_LIMIT && pmn < SYNOVIAL_PMN_LIMIT,
      `${Math.round(wbc)} cells per uL, PMN ${Math.round(pmn)} %.`,
    );
  return out;
}
