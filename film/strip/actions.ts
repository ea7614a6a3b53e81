import type { Tag } from '../dicom/data-set.ts';

/**
 * What happens to an element when identity is taken out (FILM-6): kept, kept with its sequence items cleaned, emptied,
 * replaced by another UID, or removed.
 */
export type StripAction = 'keep' | 'clean-items' | 'empty' | 'replace-uid' | 'remove';

/** Tags `gggg,eeee` of one action. Named one by one: a whole group would let in what nobody has read. */
type Row = readonly [StripAction, string];

/**
 * The list of what may stay. Anything that is not named here is removed, private elements, curves and overlays with it,
 * so the result is at least as strict as the Basic Application Level Confidentiality Profile (DICOM PS3.15 table E.1-1):
 * an attribute that a later edition adds is removed until somebody has read what it says.
 */
const ROWS: readonly Row[] = [
  // What the picture is, and how it is made of its bytes.
  ['keep', '0008,0005 0008,0008 0008,0016 0008,0060 0008,0064 0008,0068 0008,0070'],
  ['keep', '0028,0002 0028,0004 0028,0006 0028,0008 0028,0009 0028,0010 0028,0011 0028,0030 0028,0034 0028,0051'],
  ['keep', '0028,0100 0028,0101 0028,0102 0028,0103 0028,0106 0028,0107 0028,0120 0028,0121 0028,0300 0028,0301'],
  [
    'keep',
    '0028,0a02 0028,0a04 0028,1040 0028,1041 0028,1050 0028,1051 0028,1052 0028,1053 0028,1054 0028,1055 0028,1056',
  ],
  [
    'keep',
    '0028,1101 0028,1102 0028,1103 0028,1201 0028,1202 0028,1203 0028,1221 0028,1222 0028,1223 0028,2000 0028,2002',
  ],
  ['keep', '0028,2110 0028,2112 0028,2114 0028,3002 0028,3003 0028,3004 0028,3006 2050,0020 0050,0004'],
  ['keep', '7fe0,0001 7fe0,0002 7fe0,0008 7fe0,0009 7fe0,0010'],
  ['clean-items', '0028,3000 0028,3010 0028,9110 0028,9132 0028,9145'],
  // Codes of region, view and derivation, and what stands inside a code.
  ['clean-items', '0008,2218 0008,2220 0008,2228 0008,2230 0008,9215 0054,0220 0054,0222'],
  ['keep', '0008,0100 0008,0102 0008,0103 0008,0104'],
  // Geometry and exposure: scale, position, direction.
  ['keep', '0018,0015 0018,0050 0018,0060 0018,1050 0018,1110 0018,1111 0018,1114 0018,1130 0018,1147 0018,1149'],
  ['keep', '0018,1150 0018,1151 0018,1152 0018,1153 0018,1164 0018,1190 0018,1403 0018,1411 0018,1508'],
  ['keep', '0018,2010 0018,5101 0018,6000 0018,7004 0018,7022 0018,7030 0018,7032 0018,7034 0018,9404'],
  ['keep', '0020,0011 0020,0012 0020,0013 0020,0020 0020,0032 0020,0037 0020,0060 0020,0062 0020,1041 0020,9072'],
  ['clean-items', '0020,9071 5200,9229 5200,9230'],
  // Present by the standard, without content: dates, times, numbers, people.
  ['empty', '0008,0020 0008,0030 0008,0022 0008,0032 0008,0023 0008,0033 0008,0050 0008,0090 0020,0010'],
  ['empty', '0010,0010 0010,0020 0010,0030 0010,0040 0040,0555'],
  ['replace-uid', '0008,0018 0020,000d 0020,000e 0020,0052'],
];

const number = (pair: string): Tag => {
  const [group = '', element = ''] = pair.split(',');
  return Number.parseInt(group, 16) * 0x10000 + Number.parseInt(element, 16);
};

const BY_TAG = new Map<Tag, StripAction>(
  ROWS.flatMap(([action, tags]) => tags.split(' ').map((tag) => [number(tag), action] as const)),
);

/** The action for one element, by its tag alone, so that files with implicit value representations are treated alike. */
export const stripActionOf = (tag: Tag): StripAction => BY_TAG.get(tag) ?? 'remove';
