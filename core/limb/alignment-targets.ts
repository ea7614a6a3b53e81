/** Alignment that a plan aims at. Angles deg from square to the mechanical axis, **+ = valgus, - = varus**. */
export interface AlignmentChoice {
  readonly id: 'neutral' | 'constitutional';
  readonly label: string;
  readonly femurDeg: number;
  readonly tibiaDeg: number;
  readonly femurRangeDeg: readonly [number, number];
  readonly tibiaRangeDeg: readonly [number, number];
  /** Femur and tibia together may not go beyond this varus, deg; null = no such limit is stated. */
  readonly togetherAtMostDeg: readonly [number, number] | null;
  /** Valgus between the anatomic axes, deg. */
  readonly anatomicalValgusDeg: number | null;
  readonly note: string;
  readonly rule: string;
  readonly source: 'common practice, no source';
}

export const ALIGNMENT_TARGETS_VERSION = '1.0';

/** The two targets that surgeons name (LIMB-20); the case chooses one. */
export const ALIGNMENT_CHOICES: readonly AlignmentChoice[] = [
  {
    id: 'neutral',
    label: 'Mechanical neutral',
    femurDeg: 0,
    tibiaDeg: 0,
    femurRangeDeg: [0, 0],
    tibiaRangeDeg: [0, 0],
    togetherAtMostDeg: null,
    anatomicalValgusDeg: 6,
    note: 'Both components square to the mechanical axes; about 5 to 7 degrees of anatomical valgus.',
    rule: 'LIMB-20',
    source: 'common practice, no source',
  },
  {
    id: 'constitutional',
    label: 'Constitutional',
    femurDeg: -1.5,
    tibiaDeg: -2.5,
    femurRangeDeg: [-2, -1],
    tibiaRangeDeg: [-3, -2],
    togetherAtMostDeg: [4, 5],
    anatomicalValgusDeg: null,
    note: '2 to 3 degrees of tibial and 1 to 2 degrees of femoral varus, never more than 4 to 5 degrees together.',
    rule: 'LIMB-20',
    source: 'common practice, no source',
  },
];
