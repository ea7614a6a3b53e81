import { EVIDENCE } from '@gapline/core/failure/evidence-table.ts';
import { CARDIAC_RISK_ITEMS } from '@gapline/core/host/cardiac-risk.ts';
import { CHARLSON_ITEMS } from '@gapline/core/host/charlson.ts';
import { HOST_FACTORS } from '@gapline/core/host/optimise.ts';
import { LOCAL_FACTORS, SYSTEMIC_DECISIVE, SYSTEMIC_FACTORS } from '@gapline/core/infection/stage/host-limb.ts';
import { CRIME80, KLIC } from '@gapline/core/infection/stage/retention-scores.ts';
import { STAGE_FACTS } from '@gapline/core/infection/stage/strategies.ts';
import { DRUG_ITEMS, SYMPTOMS } from '@gapline/core/work-up/history.ts';
import type { WorkUp } from '@gapline/core/work-up/work-up.ts';

const all = <Id extends string, V>(items: readonly { readonly id: Id }[], value: V): Record<Id, V> =>
  Object.fromEntries(items.map((i) => [i.id, value])) as Record<Id, V>;

/**
 * A work-up with every field filled, sound and unsound results among them, so that nothing that a page can
 * enter is left untested. Invented; its findings do not make sense together.
 */
export function fullWorkUp(): WorkUp {
  return {
    history: {
      operations: [
        { id: 'o1', on: '2014', kind: 'first-replacement', note: 'elsewhere' },
        { id: 'o2', on: '2024-03-05', kind: 'debridement' },
      ],
      parts: [
        {
          id: 'p1',
          part: 'tibial-stem',
          fixation: 'cemented',
          reference: 'X-1',
          lot: '17',
          serial: 'S',
          device: '00000000000000',
          expires: '2019-01-31',
          sizeNote: '14 x 100',
          features: ['offset-stem', 'sleeve'],
          from: 'label',
        },
      ],
      scars: [
        {
          id: 's1',
          points: [
            [0.5, 0.1],
            [0.48, 0.9],
          ],
          year: 2014,
          adherent: 'no',
        },
      ],
      painCourse: 'free-then-gradual',
      painFreeMonths: 60,
      symptoms: all(SYMPTOMS, 'yes'),
      examination: {
        flexionDeg: 95,
        extensionDeficitDeg: 5,
        activeLagDeg: 0,
        opening30Mm: { medial: 4, lateral: 6 },
        drawer90Mm: 7,
        footPulses: 'yes',
        skinSound: 'yes',
        hipRotationPainful: 'no',
        rootSigns: 'no',
        tenderness: 'medial joint line',
      },
      charlson: all(CHARLSON_ITEMS, 'no'),
      cardiac: all(CARDIAC_RISK_ITEMS, 'no'),
      asa: 2,
      heightCm: 166,
      weightKg: 78,
      drugs: all(DRUG_ITEMS, 'no'),
      drugNotes: 'none',
      hostValues: all(HOST_FACTORS, 10),
      surgeryOn: '2027-01-11',
    },
    infection: {
      decisionOn: '2026-11-01',
      lastOperationOn: '2014-05-01',
      implantedOn: '2014-05-01',
      labResults: [
        { id: 'r1', analyte: 'crp', value: 0.6, unit: 'mg/dL', takenOn: '2026-10-02' },
        { id: 'r2', analyte: 'esr', value: 18, comparator: '<', unit: 'mm/h', takenOn: '2026-10-02' },
        // As they were typed: no unit, another analyte's unit, no day of the calendar, the future, negative, over the whole.
        { id: 'r3', analyte: 'crp', value: 12 },
        { id: 'r4', analyte: 'esr', value: 12, unit: 'mg/L', takenOn: '2026-02-30' },
        { id: 'r5', analyte: 'synovial-wbc', value: -5, unit: '/uL', takenOn: '2099-01-01' },
        { id: 'r6', analyte: 'synovial-pmn', value: 142, unit: '%', takenOn: 'last week', sample: 'second' },
        { id: 'r7', analyte: 'alpha-defensin', value: '', method: 'lateral-flow' },
        { id: 'r8', analyte: 'leukocyte-esterase', value: '++', centrifuged: true },
      ],
      cultures: [
        { id: 'c1', from: 'aspirate', growth: 'none', takenOn: '2026-10-02' },
        {
          id: 'c2',
          from: 'sonication',
          growth: 'growth',
          organisms: [{ name: '', kind: 'unknown' }],
          cfuPerMl: 40,
          centrifuged: false,
        },
      ],
      sinus: 'no',
      purulence: 'unknown',
      histology: 'negative',
      otherCause: 'yes',
      localSigns: { pain: 'yes', swelling: 'yes', redness: 'no', warmth: 'no', 'loss-of-function': 'yes' },
      loosening: 'yes',
      looseningSeenOn: '2026-09-01',
      woundHealingProblem: 'no',
      feverOrBacteraemia: 'no',
      leukocyteScan: 'unknown',
      leukocyteMarrowScan: 'unknown',
      boneScan: 'positive',
      tap: 'fluid',
      context: {
        crystals: 'no',
        metalReaction: 'no',
        inflammatoryDisease: 'no',
        fracture: 'no',
        haematoma: 'no',
        bloodStainedAspirate: 'no',
        antibioticsBeforeTap: 'no',
        slowOrganismSuspected: 'no',
        spacerInPlace: 'no',
        suddenOnset: 'no',
      },
    },
    infectionDecision: { standing: 'excluded', by: 'surgeon', on: '2026-11-01', reason: 'markers and tap' },
    evidence: all(EVIDENCE, 'absent'),
    strengths: Object.fromEntries(EVIDENCE.map((e) => [e.id, allCauses(e.bears)])),
    lucentLines: {
      femur: { widths: [0, 0, 1, 0, 0, 0, null], progressing: 'no' },
      'tibia-ap': { widths: [2, 2, 2, 1, 1, 1, 2], progressing: 'yes' },
      'tibia-lateral': { widths: [0, 1, 0] },
      patella: { widths: [null, null, null, null, null] },
    },
    causes: [{ cause: 'loosening', reason: 'tray sunk into varus' }],
    overrideReason: 'none needed',
    stage: {
      systemic: all(SYSTEMIC_FACTORS, 'no'),
      decisive: all(SYSTEMIC_DECISIVE, 'no'),
      local: all(LOCAL_FACTORS, 'no'),
      facts: all(STAGE_FACTS, 'unknown'),
      klic: all(KLIC.items, 'no'),
      crime80: all(CRIME80.items, 'no'),
    },
    cement: {
      use: 'spacer',
      batches: 3,
      drugs: [{ agent: 'gentamicin', gramsPerBatch: 1, weighedAs: 'base' }],
    },
    sensitivities: [{ id: 's1', organism: 'Staphylococcus epidermidis', agent: 'vancomycin', result: 'sensitive' }],
    timeline: [
      { id: 't1', from: '2026-08-01', kind: 'operation', text: 'first stage' },
      { id: 't2', from: '2026-08-01', to: '2026-09-12', kind: 'antibiotic', text: 'by microbiology' },
    ],
    preTest: 0.2,
  };
}

const allCauses = (bears: object): Record<string, 1> => Object.fromEntries(Object.keys(bears).map((id) => [id, 1]));
