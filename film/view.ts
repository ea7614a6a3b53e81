import type { ColumnDirection, View } from '@gapline/core/landmarks/view.ts';
import type { DataSet } from './dicom/data-set.ts';
import { TAG } from './dicom/tags.ts';
import { items, text, texts } from './dicom/values.ts';

/** Codes of CID 4010 (DX View): SNOMED CT, then the SRT forms of older files (mapping of PS3.16 annex D). */
const VIEW_CODES: Readonly<Record<string, View>> = {
  '399348003': 'ap',
  'R-10206': 'ap',
  '272479007': 'ap',
  'R-40888': 'ap',
  '399033003': 'ap',
  'R-10202': 'ap',
  '399067008': 'lateral',
  'R-102CD': 'lateral',
  '399260004': 'lateral',
  'R-10224': 'lateral',
  '399352003': 'lateral',
  'R-10228': 'lateral',
  '399173006': 'lateral',
  'R-10236': 'lateral',
  '399198007': 'lateral',
  'R-10232': 'lateral',
  '399110001': 'skyline',
  'R-102C2': 'skyline',
  '399061009': 'skyline',
  'R-10241': 'skyline',
};

/** Defined terms of View Position (0018,5101). */
const VIEW_POSITIONS: Readonly<Record<string, View>> = {
  AP: 'ap',
  PA: 'ap',
  LL: 'lateral',
  RL: 'lateral',
  LLD: 'lateral',
  RLD: 'lateral',
  LATERAL: 'lateral',
  LAT: 'lateral',
  AXIAL: 'skyline',
  SKYLINE: 'skyline',
  SUNRISE: 'skyline',
  TANGENTIAL: 'skyline',
};

/** Longer than any single detector: an AP of the whole leg. */
const LONG_LEG_MM = 700;

/** The codes of View Code Sequence supersede the string of View Position (PS3.3 C.8.11.5.1.1). */
export function filmView(set: DataSet, heightMm: number | undefined): View {
  const codes = items(set, TAG.ViewCodeSequence).map(
    (item) => VIEW_CODES[text(item, TAG.CodeValue)?.toUpperCase() ?? ''],
  );
  const view = codes.find((v) => v !== undefined) ?? VIEW_POSITIONS[text(set, TAG.ViewPosition)?.toUpperCase() ?? ''];
  return view === 'ap' && heightMm !== undefined && heightMm >= LONG_LEG_MM ? 'long-leg' : (view ?? 'other');
}

const DIRECTIONS: Readonly<Record<string, ColumnDirection>> = {
  L: 'patient-left',
  R: 'patient-right',
  A: 'anterior',
  P: 'posterior',
};

/**
 * Direction of the patient that the rows' pixels run to, left to right: the first value of Patient
 * Orientation (0020,0020), by its main letter. Feet and head are no direction of columns on a knee film.
 */
export const columnsTowards = (set: DataSet): ColumnDirection | undefined =>
  DIRECTIONS[texts(set, TAG.PatientOrientation)[0]?.[0]?.toUpperCase() ?? ''];
