/** Ways to rebuild lost bone, from the least to the most. */
export const TREATMENTS = [
  { id: 'cement', label: 'Cement', note: 'Cheap and quick; weak under shear.' },
  { id: 'cement-screws', label: 'Cement and screws', note: 'Cheap; screws carry what cement alone would not.' },
  { id: 'morselised-graft', label: 'Morselised graft', note: 'Restores bone; carries no load by itself.' },
  { id: 'impaction-graft', label: 'Impaction graft', note: 'Restores bone; an open defect needs mesh. Takes time.' },
  { id: 'block-augment', label: 'Block augment', note: 'Quick; sets joint line and balance; restores no bone.' },
  { id: 'structural-graft', label: 'Structural graft', note: 'Restores bone; may resorb, not heal, or be infected.' },
  { id: 'cone', label: 'Cone', note: 'Holds in the metaphysis, free of the rotation of the component.' },
  { id: 'sleeve', label: 'Sleeve', note: 'Holds in the metaphysis, joined to the component. Hard to remove.' },
  {
    id: 'segmental',
    label: 'Segmental component',
    note: 'Replaces the end of the bone; bears weight at once; many complications.',
  },
  { id: 'custom', label: 'Custom component', note: 'Last resort; made ahead, so that the kit cannot change late.' },
] as const satisfies readonly { readonly id: string; readonly label: string; readonly note: string }[];

export type TreatmentId = (typeof TREATMENTS)[number]['id'];

/** Published survival or failure of one way. Years and n as published; null = not stated where it was read. */
export interface Reported {
  readonly treatment: TreatmentId;
  readonly what: string;
  readonly value: string;
  readonly n: string | null;
  readonly years: string | null;
  readonly source: string;
  /** A meta-analysis, B series, C consensus; figures from memory say so in the source. */
  readonly grade: 'A' | 'B' | 'C' | 'D';
}

/** Figures stand beside each other, they do not compare: defects, patients and ends differ between series. */
export const REPORTED: readonly Reported[] = [
  {
    treatment: 'morselised-graft',
    what: 'survival, loosely packed, with a long cementless stem; 9 % reoperated',
    value: '98 %',
    n: '56 knees',
    years: '10 (mean follow-up 7.3)',
    source: 'Hanna 2011 (CORR 469:3164)',
    grade: 'B',
  },
  {
    treatment: 'block-augment',
    what: 'free of reoperation, medial tibial blocks of 5 and 10 mm',
    value: '98.8 %',
    n: 'first replacements and 89 aseptic revisions',
    years: 'mean 8',
    source: 'Clement 2026 (J Arthroplasty)',
    grade: 'B',
  },
  {
    treatment: 'block-augment',
    what: 'survival in type 2 defects',
    value: '92 %',
    n: null,
    years: '11',
    source: 'Patel 2004, from memory',
    grade: 'D',
  },
  {
    treatment: 'block-augment',
    what: 'lucent lines under the block, first replacements',
    value: '30 % (10 of 33), none revised',
    n: '33 knees',
    years: '3 to 6',
    source: 'J Orthop Surg Res 2013; 8:36',
    grade: 'B',
  },
  {
    treatment: 'structural-graft',
    what: 'free of revision; 22.8 % failed',
    value: '80.7 % at 5, 75.9 % at 10 years',
    n: '70 knees',
    years: '5 and 10',
    source: 'Bauman 2009 (CORR 467:818)',
    grade: 'B',
  },
  {
    treatment: 'structural-graft',
    what: 'survival, other series',
    value: '72 to 91 %',
    n: null,
    years: '10',
    source: 'Clatworthy 2001, Engh 2007, from memory',
    grade: 'D',
  },
  {
    treatment: 'cone',
    what: 'stable cones: tibia and femur; 10 % reoperated',
    value: '94 % and 95 %',
    n: '112 cones',
    years: 'mean 6.1',
    source: 'Eder-Halbedl 2023 (KSSTA 31:5496)',
    grade: 'B',
  },
  {
    treatment: 'cone',
    what: 'aseptic loosening; infection 11.7 %, any revision 14.4 %',
    value: '4.1 %',
    n: null,
    years: 'long term',
    source: 'meta-analysis of cones and sleeves 2022 (KSSTA)',
    grade: 'A',
  },
  {
    treatment: 'sleeve',
    what: 'aseptic loosening; infection 4.9 %, any revision 5.5 %',
    value: '0.4 %',
    n: null,
    years: 'long term',
    source: 'meta-analysis of cones and sleeves 2022 (KSSTA)',
    grade: 'A',
  },
  {
    treatment: 'segmental',
    what: 'survival, distal femur, no tumour; complications 49 %, infection 21 %',
    value: '87 % at 1, 76 % at 5 years',
    n: '75 knees',
    years: '1 and 5',
    source: 'Sobol 2022 (Bone Jt Open 3:173)',
    grade: 'B',
  },
  {
    treatment: 'segmental',
    what: 'survival, rotating hinge with distal femur, mean age 76',
    value: '87 %',
    n: '39 knees',
    years: '3.8',
    source: 'CORR 2009, PMC2628491',
    grade: 'B',
  },
  {
    treatment: 'custom',
    what: 'custom sleeves, proof of concept',
    value: 'short term only',
    n: null,
    years: null,
    source: 'J Pers Med 2023; 13:1043',
    grade: 'B',
  },
];
