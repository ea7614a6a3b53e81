/** How one column of a table becomes one field. Units stand in the headers. */
export interface Column {
  readonly header: string;
  readonly field: string;
  readonly kind: 'text' | 'number' | 'yes-no' | 'numbers' | 'texts';
  /** The column may be left out, and an empty cell of it gives no field. */
  readonly optional?: boolean;
}

export interface CsvTable {
  /** File name without folder. */
  readonly file: string;
  /** Where its rows go in the catalogue, as a JSON Pointer; one row only where `single`. */
  readonly pointer: string;
  readonly columns: readonly Column[];
  readonly optional?: boolean;
  readonly single?: boolean;
}

const column = (header: string, field: string, kind: Column['kind'] = 'number'): Column => ({ header, field, kind });
const maybe = (header: string, field: string, kind: Column['kind'] = 'number'): Column => ({
  ...column(header, field, kind),
  optional: true,
});
const REF = column('ref', 'ref', 'text');
const NAME = column('name', 'name', 'text');
const SIZE = column('size', 'size');
const LEVEL = column('level', 'level', 'text');
const BONE = column('bone', 'bone', 'text');

/** The tables of a catalogue in CSV, one a kind of part (docs/catalogue.md). Lists inside a cell are separated by spaces. */
export const CSV_TABLES: readonly CsvTable[] = [
  {
    file: 'system.csv',
    pointer: '',
    single: true,
    columns: [
      column('id', 'id', 'text'),
      NAME,
      column('invented', 'invented', 'yes-no'),
      column('retrieved_on', 'retrievedOn', 'text'),
      column('source_document', 'sourceDocument', 'text'),
    ],
  },
  {
    file: 'limits.csv',
    pointer: '/limits',
    single: true,
    columns: [
      column('cement_mm', 'cementMm'),
      column('cut_mm', 'cutMm'),
      column('overhang_mm', 'overhangMm'),
      column('flange_gap_mm', 'flangeGapMm'),
      column('slope_deg', 'slopeDeg', 'numbers'),
    ],
  },
  {
    file: 'femurs.csv',
    pointer: '/femurs',
    columns: [
      REF,
      NAME,
      SIZE,
      column('side', 'side', 'text'),
      column('distal_mm', 'distalMm'),
      column('posterior_mm', 'posteriorMm'),
      column('ap_mm', 'apMm'),
      column('width_mm', 'widthMm'),
      column('box_width_mm', 'boxWidthMm'),
      column('box_depth_mm', 'boxDepthMm'),
      column('stem_valgus_deg', 'stemValgusDeg'),
      column('levels', 'levels', 'texts'),
      maybe('stem_behind_flange_mm', 'stemBehindFlangeMm'),
    ],
  },
  {
    file: 'femoral-augments.csv',
    pointer: '/femoralAugments',
    optional: true,
    columns: [
      REF,
      NAME,
      column('face', 'face', 'text'),
      column('thickness_mm', 'thicknessMm'),
      column('femur_sizes', 'femurSizes', 'numbers'),
    ],
  },
  {
    file: 'trays.csv',
    pointer: '/trays',
    columns: [
      REF,
      NAME,
      SIZE,
      column('thickness_mm', 'thicknessMm'),
      column('width_mm', 'widthMm'),
      column('ap_mm', 'apMm'),
      column('keel_mm', 'keelMm'),
    ],
  },
  {
    file: 'tibial-augments.csv',
    pointer: '/tibialAugments',
    optional: true,
    columns: [REF, NAME, column('thickness_mm', 'thicknessMm'), column('tray_sizes', 'traySizes', 'numbers')],
  },
  {
    file: 'inserts.csv',
    pointer: '/inserts',
    columns: [
      REF,
      NAME,
      SIZE,
      LEVEL,
      column('label_mm', 'labelMm'),
      column('height_mm', 'heightMm'),
      column('least_polyethylene_mm', 'leastPolyethyleneMm'),
    ],
  },
  {
    file: 'stems.csv',
    pointer: '/stems',
    optional: true,
    columns: [
      REF,
      NAME,
      BONE,
      column('fixation', 'fixation', 'text'),
      column('diameter_mm', 'diameterMm'),
      column('length_mm', 'lengthMm'),
      maybe('shape', 'shape', 'text'),
      maybe('bow_radius_mm', 'bowRadiusMm'),
    ],
  },
  {
    file: 'offset-couplers.csv',
    pointer: '/offsetCouplers',
    optional: true,
    columns: [
      REF,
      NAME,
      BONE,
      column('offset_mm', 'offsetMm'),
      column('added_length_mm', 'addedLengthMm'),
      maybe('sizes', 'sizes', 'numbers'),
    ],
  },
  {
    file: 'cones.csv',
    pointer: '/cones',
    optional: true,
    columns: [
      REF,
      NAME,
      BONE,
      column('width_mm', 'widthMm'),
      column('height_mm', 'heightMm'),
      column('sizes', 'sizes', 'numbers'),
      maybe('ap_mm', 'apMm'),
      maybe('bore_mm', 'boreMm'),
    ],
  },
  {
    file: 'sleeves.csv',
    pointer: '/sleeves',
    optional: true,
    columns: [
      REF,
      NAME,
      BONE,
      column('width_mm', 'widthMm'),
      column('ap_mm', 'apMm'),
      column('height_mm', 'heightMm'),
      column('sizes', 'sizes', 'numbers'),
      maybe('takes_offset', 'takesOffset', 'yes-no'),
    ],
  },
  {
    file: 'segments.csv',
    pointer: '/segments',
    optional: true,
    columns: [
      REF,
      NAME,
      BONE,
      column('side', 'side', 'text'),
      SIZE,
      column('levels', 'levels', 'texts'),
      column('replaces_mm', 'replacesMm'),
      column('steps_mm', 'stepsMm', 'numbers'),
      column('width_mm', 'widthMm'),
      column('ap_mm', 'apMm'),
      column('ap_free_mm', 'apFreeMm'),
      maybe('stem_valgus_deg', 'stemValgusDeg'),
    ],
  },
  {
    file: 'femur-insert.csv',
    pointer: '/compatibility/femurInsert',
    columns: [column('femur_size', 'femurSize'), column('insert_size', 'insertSize'), LEVEL],
  },
  {
    file: 'insert-tray.csv',
    pointer: '/compatibility/insertTray',
    columns: [column('insert_size', 'insertSize'), column('tray_size', 'traySize')],
  },
  {
    file: 'femur-tray.csv',
    pointer: '/compatibility/femurTray',
    columns: [column('femur_size', 'femurSize'), column('tray_size', 'traySize')],
  },
];
