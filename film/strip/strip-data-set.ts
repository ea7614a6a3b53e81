import type { DataSet, Element, Encoding, Tag } from '../dicom/data-set.ts';
import { uidFrom } from '../write/uid.ts';
import { stripActionOf } from './actions.ts';
import { encodeElement, encodeItems, joined, padded } from './encode.ts';

/** Another UID for a UID: the same for the same salt, so that films of one study stay together; not to be traced back without it. */
export const replacedUid = (uid: string, salt: string): string => uidFrom(`${salt}\n${uid}`);

const LATIN = new TextDecoder('latin1');

/** The element's bytes as they lie in the file, header and delimiters included. */
const asItLies = (set: DataSet, e: Element): Uint8Array => set.bytes.subarray(e.start, e.at + e.length);

function uidsReplaced(set: DataSet, e: Element, salt: string): Uint8Array {
  const written = LATIN.decode(set.bytes.subarray(e.at, e.at + e.length)).replace(/[\0 ]+$/, '');
  const uids =
    written === ''
      ? ''
      : written
          .split('\\')
          .map((uid) => replacedUid(uid.trim(), salt))
          .join('\\');
  return encodeElement(set.encoding, e.tag, { vr: 'UI', value: padded(uids, '\0') });
}

function itemsCleaned(set: DataSet, e: Element, salt: string): Uint8Array {
  const items = (e.items ?? []).map((item) => joined([...cleanedElements(item, salt).values()]));
  // Items of a sequence that was sent as unknown (UN) are implicit little endian inside (PS3.5 6.2.2): they stay so.
  const inside: Encoding = e.items?.[0]?.encoding ?? set.encoding;
  const vr = inside.explicit === set.encoding.explicit ? 'SQ' : 'UN';
  return encodeElement(set.encoding, e.tag, { vr, value: encodeItems(inside, items) });
}

/** FILM-6: the elements that stay, cleaned, by tag in ascending order. Nested items follow the same table. */
export function cleanedElements(set: DataSet, salt: string): ReadonlyMap<Tag, Uint8Array> {
  const out = new Map<Tag, Uint8Array>();
  for (const e of [...set.elements.values()].sort((a, b) => a.tag - b.tag)) {
    // A sequence inside a group that stays is still cleaned item by item: it may hold anything.
    const stated = stripActionOf(e.tag);
    const action = stated === 'keep' && e.items ? 'clean-items' : stated;
    if (action === 'keep') out.set(e.tag, asItLies(set, e));
    else if (action === 'empty')
      out.set(e.tag, encodeElement(set.encoding, e.tag, { vr: e.vr, value: new Uint8Array(0) }));
    else if (action === 'replace-uid') out.set(e.tag, uidsReplaced(set, e, salt));
    else if (action === 'clean-items' && e.items) out.set(e.tag, itemsCleaned(set, e, salt));
  }
  return out;
}
