/** Where a sample comes from. */
export type Specimen = 'serum' | 'blood' | 'synovial-fluid';

/** Words of a strip or a qualitative report, weakest first. LAB-2. */
export const ORDINALS = {
  strip: ['negative', 'trace', '1+', '2+', '3+'],
  sign: ['negative', 'positive'],
} as const;

export interface Analyte {
  readonly label: string;
  readonly specimen: Specimen;
  /** The unit in which values are kept and compared; null where the result is a word. */
  readonly unit: string | null;
  /** Words the result may be given in. */
  readonly words?: keyof typeof ORDINALS;
  /** Above this a value is possible but so rare that it is asked about; in the standard unit. Plausibility only. */
  readonly rareAbove?: number;
  /** Codes of the public nomenclature that name this quantity; empty where none was found. */
  readonly loinc: readonly string[];
}

/**
 * LAB-1: the results the work-up reads, each with the unit it is kept in. Codes are read from public code tables and
 * some of them from memory: an exchange checks each against the official table before it relies on it.
 */
export const ANALYTES = {
  crp: { label: 'C-reactive protein', specimen: 'serum', unit: 'mg/L', rareAbove: 600, loinc: ['1988-5', '30522-7'] },
  esr: {
    label: 'Erythrocyte sedimentation rate',
    specimen: 'blood',
    unit: 'mm/h',
    rareAbove: 150,
    loinc: ['30341-2', '4537-7', '18184-2'],
  },
  'd-dimer': {
    label: 'D-dimer',
    specimen: 'serum',
    unit: 'ng/mL FEU',
    rareAbove: 100_000,
    loinc: ['48065-7', '48066-5'],
  },
  'il-6': { label: 'Interleukin 6', specimen: 'serum', unit: 'pg/mL', rareAbove: 10_000, loinc: ['26881-3'] },
  procalcitonin: {
    label: 'Procalcitonin',
    specimen: 'serum',
    unit: 'ng/mL',
    rareAbove: 200,
    loinc: ['33959-8', '75241-0'],
  },
  fibrinogen: { label: 'Fibrinogen', specimen: 'blood', unit: 'g/L', rareAbove: 15, loinc: ['3255-7'] },
  'blood-wbc': { label: 'White cells in blood', specimen: 'blood', unit: '/uL', rareAbove: 100_000, loinc: ['6690-2'] },
  'blood-rbc': { label: 'Red cells in blood', specimen: 'blood', unit: '/uL', rareAbove: 9_000_000, loinc: ['789-8'] },
  'blood-neutrophils': {
    label: 'Neutrophils in blood, share of white cells',
    specimen: 'blood',
    unit: '%',
    loinc: ['770-8'],
  },
  'synovial-wbc': {
    label: 'White cells in the aspirate',
    specimen: 'synovial-fluid',
    unit: '/uL',
    rareAbove: 500_000,
    loinc: ['26469-7', '26466-3'],
  },
  'synovial-pmn': {
    label: 'Polymorphonuclear cells in the aspirate, share of white cells',
    specimen: 'synovial-fluid',
    unit: '%',
    loinc: ['26522-3', '26513-2'],
  },
  'synovial-rbc': {
    label: 'Red cells in the aspirate',
    specimen: 'synovial-fluid',
    unit: '/uL',
    rareAbove: 9_000_000,
    loinc: ['26458-0'],
  },
  'synovial-crp': {
    label: 'C-reactive protein in the aspirate',
    specimen: 'synovial-fluid',
    unit: 'mg/L',
    rareAbove: 600,
    loinc: [],
  },
  calprotectin: {
    label: 'Calprotectin in the aspirate',
    specimen: 'synovial-fluid',
    unit: null,
    words: 'sign',
    loinc: [],
  },
  'leukocyte-esterase': {
    label: 'Leukocyte esterase strip on the aspirate',
    specimen: 'synovial-fluid',
    unit: null,
    words: 'strip',
    loinc: [],
  },
  'alpha-defensin': {
    label: 'Alpha-defensin in the aspirate',
    specimen: 'synovial-fluid',
    unit: 's/co',
    words: 'sign',
    rareAbove: 100,
    loinc: [],
  },
} as const satisfies Record<string, Analyte>;

export type AnalyteId = keyof typeof ANALYTES;

export const ANALYTE_IDS = Object.keys(ANALYTES) as readonly AnalyteId[];

/** The table's entry, with its optional fields visible. */
export const analyte = (id: AnalyteId): Analyte => ANALYTES[id];

/** The analyte that a public code names, or null: a code the table does not know is shown by the caller, never dropped. */
export const analyteOfLoinc = (code: string): AnalyteId | null =>
  ANALYTE_IDS.find((id) => analyte(id).loinc.includes(code)) ?? null;
