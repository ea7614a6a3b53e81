/** A cause of failure with its working definition, CAUSE-1. */
export interface Cause {
  readonly id: string;
  readonly label: string;
  readonly definition: string;
  /** Published numbers that go with the definition. */
  readonly numbers: string;
  readonly source: string;
}

/** The closed list of causes, in the order in which they are shown: infection first, unexplained last. */
export const CAUSES = [
  {
    id: 'infection',
    label: 'Infection',
    definition: 'A current definition of periprosthetic joint infection is met.',
    numbers: 'To be excluded actively before any other cause is accepted; about half of failures within two years.',
    source: 'core/infection; early share: single-centre series of 258 revisions, 2005-14',
  },
  {
    id: 'loosening',
    label: 'Loosening without infection',
    definition:
      'Symptoms with a lucent line that progresses, subsidence or migration, broken cement, tilt of a component or shed beads; infection excluded.',
    numbers:
      'A line under 2 mm with a sclerotic edge that does not progress is usually normal. Subsidence of 2 mm or tilt of 2 degrees against the first film: loose.',
    source: 'Review of radiological evaluation after knee replacement; migration limits from memory',
  },
  {
    id: 'instability',
    label: 'Instability',
    definition: 'Laxity that the patient feels, in extension, in flexion, between, or in all directions.',
    numbers:
      'Extension: opening over 5 mm or 5 to 10 degrees. Flexion: drawer over 5 mm at 90 degrees. Limits from memory.',
    source: 'Reviews of instability after knee replacement; limits from memory',
  },
  {
    id: 'malalignment',
    label: 'Malalignment or malrotation',
    definition: 'Components set so that load, tracking or kinematics suffer; rotation needs CT.',
    numbers:
      'Coronal 180 +/- 3 degrees (target, not a threshold for revision). Combined internal rotation 1-4: tilt; 3-8: subluxation; 7-17: dislocation or patellar failure; no cut-off for revision is known.',
    source: 'Berger and Crossett 1998, Clin Orthop 356:144; systematic review of 25 studies 2015 (no cut-off)',
  },
  {
    id: 'stiffness',
    label: 'Stiffness, arthrofibrosis',
    definition:
      'Limited flexion or extension from soft-tissue fibrosis, not from bony or component block, malposition or infection.',
    numbers: 'Mild 90-100 degrees or deficit 5-10; moderate 70-89 or 11-20; severe under 70 or over 20.',
    source: 'Kalson 2016, international consensus, Bone Joint J (from memory)',
  },
  {
    id: 'extensor',
    label: 'Patellofemoral or extensor mechanism',
    definition: 'Tilt, subluxation, dislocation, overstuffing, patella baja, or a torn extensor mechanism.',
    numbers: 'Lag over 20-30 degrees with full passive extension suggests a tear. Insall-Salvati under 0.8: baja.',
    source: 'Review of extensor mechanism failure; thresholds from memory',
  },
  {
    id: 'wear',
    label: 'Wear and osteolysis',
    definition: 'Joint space lost unevenly, late effusion, scalloped lysis; CT sees more than films.',
    numbers: 'Least joint-space error on film about 0.9 mm medially.',
    source: 'Model-based against conventional joint-space measurement',
  },
  {
    id: 'fracture',
    label: 'Periprosthetic fracture',
    definition: 'A fracture of femur, tibia or patella about the implant.',
    numbers: 'Femur 0.3-2.5 % after a first replacement, more in revision series.',
    source: 'Review of periprosthetic fractures',
  },
  {
    id: 'breakage',
    label: 'Breakage of a part',
    definition: 'Visible fracture of post, insert, stem, tray or screw; usually sudden.',
    numbers: 'Rare.',
    source: 'common practice, no source',
  },
  {
    id: 'hypersensitivity',
    label: 'Reaction to metal',
    definition: 'A diagnosis of exclusion; tests support, never prove.',
    numbers: 'Lymphocyte stimulation of 5 or more in 3.2 %, 2 to 4.9 in 28 % of patients before a first replacement.',
    source: 'Series of pre-operative lymphocyte tests; review of patch testing',
  },
  {
    id: 'referred-pain',
    label: 'Referred pain',
    definition: 'Pain from the hip or from roots L3 and L4.',
    numbers: 'A hip film and an examination of the spine come before any label of unexplained.',
    source: 'Review of pain after knee replacement; common practice',
  },
  {
    id: 'regional-pain-syndrome',
    label: 'Complex regional pain syndrome',
    definition:
      'Pain out of proportion, at least one symptom in three and one sign in two of four groups (sensory, vasomotor, sweating or swelling, motor or trophic), no better explanation.',
    numbers: 'Budapest criteria.',
    source: 'Budapest criteria (from memory)',
  },
  {
    id: 'unexplained',
    label: 'Unexplained pain',
    definition: 'Everything above looked for and not found.',
    numbers: 'After exploring 27 knees for unexplained pain 41 % were good or excellent.',
    source: 'Mont 1996 (from memory); later reviews do not recommend revision',
  },
] as const satisfies readonly Cause[];

export type CauseId = (typeof CAUSES)[number]['id'];
