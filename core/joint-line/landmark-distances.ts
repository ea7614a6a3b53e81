import type { LandmarkId } from '../landmarks/landmark-table.ts';

export type Population = 'pooled' | 'european' | 'chinese';

export const LANDMARK_DISTANCES_VERSION = '1.0';

/** Distance of a femoral landmark to the joint line as a share of the epicondylar width (FW), along the mechanical axis. */
export interface RatioDistance {
  readonly landmark: LandmarkId;
  readonly label: string;
  readonly ratio: Readonly<Record<Population, number>>;
  /** Spread between people and studies, with 1 mm of picking in it, as a share of the width. */
  readonly ratioSd: number;
  readonly rule: string;
  readonly source: string;
}

const alike = (ratio: number): Readonly<Record<Population, number>> => ({
  pooled: ratio,
  european: ratio,
  chinese: ratio,
});

/** Level: cartilage or prosthetic bearing, medial-lateral mean. Only the adductor tubercle has figures by population. */
export const FEMORAL_DISTANCES: readonly RatioDistance[] = [
  {
    landmark: 'adductor-tubercle',
    label: 'Adductor tubercle',
    ratio: { pooled: 0.54, european: 0.525, chinese: 0.557 },
    ratioSd: 0.032,
    rule: 'JL-1',
    source: 'Iacono 2013 and 2016; Palanisamy 2025; Gao 2021; Chinese CT 2018; Xiao 2017; Luyckx 2013',
  },
  {
    landmark: 'medial-epicondyle',
    label: 'Medial epicondyle, peak',
    ratio: alike(0.325),
    ratioSd: 0.03,
    rule: 'JL-2',
    source: 'Rajagopal 2011; Gao 2021; Chinese CT 2018; Thai MRI 2022; Lee 2020',
  },
  {
    landmark: 'medial-epicondyle-sulcus',
    label: 'Medial epicondyle, sulcus',
    ratio: alike(0.303),
    ratioSd: 0.03,
    rule: 'JL-2',
    source: 'Rajagopal 2011',
  },
  {
    landmark: 'lateral-epicondyle',
    label: 'Lateral epicondyle',
    ratio: alike(0.29),
    ratioSd: 0.026,
    rule: 'JL-3',
    source: 'Servien 2008; Thai MRI 2022; Chinese CT 2018; Gao 2021',
  },
];

/** Distance of the joint line above a tibial landmark, mm along the tibia's axis. */
export interface FixedDistance {
  readonly landmark: LandmarkId;
  readonly label: string;
  readonly distanceMm: number;
  readonly sdMm: number;
  readonly rule: string;
  readonly source: string;
}

export const TIBIAL_DISTANCES: readonly FixedDistance[] = [
  {
    landmark: 'fibular-tip',
    label: 'Tip of the fibular head',
    distanceMm: 13,
    sdMm: 4,
    rule: 'JL-4',
    source: 'Servien 2008; Thai MRI 2022; 96 cadaver legs on CT 2021; Maderbacher 2014',
  },
  {
    landmark: 'tibial-tubercle',
    label: 'Tibial tubercle',
    distanceMm: 22,
    sdMm: 4.5,
    rule: 'JL-5',
    source: 'Servien 2008; Thai MRI 2022; Chinese CT 2018',
  },
];

/** Picking error that the spreads above already hold, mm: only marking beyond it is added. */
export const PICKING_IN_TABLE_MM = 1;

/** Spread of the mirrored native other knee, read on films, mm. */
export const OTHER_KNEE = {
  sdMm: 2,
  rule: 'JL-6',
  source: '96 cadaver legs on CT 2021 (side to side 1.6 ± 1.1); Jacquet 2020',
} as const;

/** Spread of a film of the same knee from before its first replacement, mm: scaled on the same bone, or by its own scale. */
export const EARLIER_FILM = {
  sameBoneSdMm: 1.5,
  ownScaleSdMm: 2,
  rule: 'JL-7',
  source: 'derived from reading spread',
} as const;

/** Cartilage over the bone that a film of a native knee shows, on each side of the joint, mm (medial and lateral 2.0, 530 MRI, 2016). */
export const CARTILAGE_MM = 2;

/** Angle from the anatomic to the mechanical axis of the femur, where a short film shows the shaft only (Jamali 2017). */
export const SHAFT_TO_MECHANICAL = { deg: 5.4, sdDeg: 0.7 } as const;

export const DEFAULT_CORRELATIONS = { withinFemur: 0.5, withinTibia: 0.4, across: 0.1 } as const;
