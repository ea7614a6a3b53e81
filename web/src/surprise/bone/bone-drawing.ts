/**
 * Our own plain drawings of the two bones, from the front and from the side, for a left knee (medial at the left edge
 * from the front). Regions are boxes that the outline cuts to shape; each is one surface of the map.
 */
export type BoneName = 'femur' | 'tibia';

/** A place of the map that can be chosen; surfaces carry their pointer below the bone's map. */
export type RegionId =
  | 'distal-medial'
  | 'distal-lateral'
  | 'posterior-medial'
  | 'posterior-lateral'
  | 'anterior'
  | 'plateau-medial'
  | 'plateau-lateral'
  | 'metaphysis'
  | 'shaft';

export interface Region {
  readonly id: RegionId;
  readonly label: string;
  /** Path below the bone's map. */
  readonly at: string;
  readonly is: 'surface' | 'metaphysis' | 'shaft';
}

const surface = (id: RegionId, label: string, at: string): Region => ({ id, label, at, is: 'surface' });

export const REGIONS: Readonly<Record<BoneName, readonly Region[]>> = {
  femur: [
    surface('distal-medial', 'Distal, medial', 'distal/medial'),
    surface('distal-lateral', 'Distal, lateral', 'distal/lateral'),
    surface('posterior-medial', 'Posterior, medial', 'posterior/medial'),
    surface('posterior-lateral', 'Posterior, lateral', 'posterior/lateral'),
    surface('anterior', 'Anterior', 'anterior'),
    { id: 'metaphysis', label: 'Metaphysis', at: 'metaphysis', is: 'metaphysis' },
    { id: 'shaft', label: 'Shaft', at: 'diaphysis', is: 'shaft' },
  ],
  tibia: [
    surface('plateau-medial', 'Plateau, medial', 'plateau/medial'),
    surface('plateau-lateral', 'Plateau, lateral', 'plateau/lateral'),
    { id: 'metaphysis', label: 'Metaphysis', at: 'metaphysis', is: 'metaphysis' },
    { id: 'shaft', label: 'Shaft', at: 'diaphysis', is: 'shaft' },
  ],
};

export interface BoneView {
  readonly id: string;
  readonly title: string;
  readonly width: number;
  readonly edges: readonly [string, string];
  readonly outline: string;
  /** Box of each region: left, top, width, height. */
  readonly boxes: readonly (readonly [RegionId, readonly [number, number, number, number]])[];
  /** Turned over for a right knee, so that medial stays where it lies. */
  readonly turns: boolean;
}

export const VIEW_HEIGHT = 190;
const FRONT = 200;
const SIDE = 124;

const profile = (side: 'medial' | 'lateral'): BoneView => ({
  id: `femur-${side}`,
  title: side === 'medial' ? 'Medial side' : 'Lateral side',
  width: SIDE,
  edges: ['front', 'back'],
  outline:
    'M36 0 34 62C31 92 20 104 22 128C25 156 50 172 76 166C102 160 118 140 115 116C112 98 98 92 84 88C74 80 70 62 70 44V0Z',
  boxes: [
    ['shaft', [0, 0, SIDE, 42]],
    ['metaphysis', [0, 42, SIDE, 48]],
    ['anterior', [0, 90, 46, 42]],
    [`posterior-${side}`, [78, 86, 46, 54]],
    [`distal-${side}`, [0, 132, SIDE, 58]],
  ],
  turns: false,
});

const tibialProfile = (side: 'medial' | 'lateral'): BoneView => ({
  id: `tibia-${side}`,
  title: side === 'medial' ? 'Medial side' : 'Lateral side',
  width: SIDE,
  edges: ['front', 'back'],
  outline: 'M26 28 112 36C112 60 92 82 86 112L82 190H48C48 150 46 114 38 96C28 90 26 82 30 68C24 54 22 40 26 28Z',
  boxes: [
    [`plateau-${side}`, [0, 0, SIDE, 56]],
    ['metaphysis', [0, 56, SIDE, 58]],
    ['shaft', [0, 114, SIDE, 76]],
  ],
  turns: false,
});

export const VIEWS: Readonly<Record<BoneName, readonly BoneView[]>> = {
  femur: [
    profile('medial'),
    {
      id: 'femur-front',
      title: 'Front',
      width: FRONT,
      edges: ['medial', 'lateral'],
      outline:
        'M84 0V45C84 75 60 85 48 98C37 111 36 135 46 152C55 168 86 170 93 154C96 147 104 147 107 154C114 170 145 168 154 152C164 135 163 111 152 98C140 85 116 75 116 45V0Z',
      boxes: [
        ['shaft', [0, 0, FRONT, 42]],
        ['metaphysis', [0, 42, FRONT, 48]],
        ['anterior', [68, 90, 64, 42]],
        ['distal-medial', [0, 132, 100, 58]],
        ['distal-lateral', [100, 132, 100, 58]],
      ],
      turns: true,
    },
    profile('lateral'),
  ],
  tibia: [
    tibialProfile('medial'),
    {
      id: 'tibia-front',
      title: 'Front',
      width: FRONT,
      edges: ['medial', 'lateral'],
      outline:
        'M34 34C50 24 86 29 95 22H105C114 29 150 24 166 34C170 54 152 74 134 98C122 118 118 142 117 190H83C82 142 78 118 66 98C48 74 30 54 34 34Z',
      boxes: [
        ['plateau-medial', [0, 0, 100, 56]],
        ['plateau-lateral', [100, 0, 100, 56]],
        ['metaphysis', [0, 56, FRONT, 58]],
        ['shaft', [0, 114, FRONT, 76]],
      ],
      turns: true,
    },
    tibialProfile('lateral'),
  ],
};

/** Left edge of a box in a view that may be turned over. */
export const leftOf = (
  view: BoneView,
  turned: boolean,
  [x, , width]: readonly [number, number, number, number],
): number => (turned ? view.width - x - width : x);
