import type { Tag } from '../dicom/data-set.ts';

/**
 * What happens to an element when identity is taken out (FILM-6): kept, kept with its sequence items cleaned, emptied,
 * replaced by another UID, or removed.
 */
export type StripAction = 'keep' | 'clean-items' | 'empty' | 'replace-uid' | 'remove';

/** Tags `gggg,eeee` of one action; a trailing `*` in place of the element means the whole group. */
type Row = readonly [StripAction, string];

/**
 * The list of what may stay. Anything that is not named here is removed, private elements, curves and overlays with it,
 * so the result is at least as strict as the Basic Application Level Confidentiality Profile (DICOM PS3.15 table E.1-1):
 * an attribute that a later edition adds is removed until somebody has read what it says.
 */
const ROWS: readonly Row[] = [
  // What the picture is, and how it is made of its bytes.
  ['keep', '0008,0005 0008,0008 0008,0016 0008,0060 0008,0064 0008,0068 0008,0070'],
  ['keep', '0028,* 7fe0,* 2050,0020 0050,0004'],
  ['remove', '0028,4000 0028,1199 0028,1214'],
  ['clean-items', '0028,3000 0028,3010 0028,9110 0028,9132 0028,9145'],
  // Codes of region, view and derivation, and what stands inside a code.
  ['clean-items', '0008,2218 0008,2220 0008,2228 0008,2230 0008,9215 0054,0220 0054,0222'],
  ['keep', '0008,0100 0008,0102 0008,0103 0008,0104'],
  // Geometry and exposure: scale, position, direction.
  ['keep', '0018,0015 0018,0050 0018,0060 0018,1050 0018,1110 0018,1111 0018,1114 0018,1130 0018,1147 0018,1149'],
  ['keep', '0018,1150 0018,1151 0018,1152 0018,1153 0018,1164 0018,1190 0018,1260 0018,1403 0018,1411 0018,1508'],
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

const BY_TAG = new Map<Tag, StripAction>();
const BY_GROUP = new Map<number, StripAction>();
for (const [action, tags] of ROWS) {
  for (const tag of tags.split(' ')) {
    if (tag.endsWith('*')) BY_GROUP.set(Number.parseInt(tag, 16), action);
    else BY_TAG.set(number(tag), action);
  }
}

/** The action for one element, by its tag alone, so that files with implicit value representations are treated alike. */
export const stripActionOf = (tag: Tag): StripAction => BY_TAG.get(tag) ?? BY_GROUP.get(tag >>> 16) ?? 'remove';
