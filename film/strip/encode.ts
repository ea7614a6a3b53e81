import type { Encoding, Tag } from '../dicom/data-set.ts';

/** Value representations whose length takes 32 bits behind two reserved bytes (PS3.5 7.1.2). */
const LONG = new Set('OB OD OF OL OV OW SQ SV UC UN UR UT UV'.split(' '));

/** One element as bytes in the given encoding. `value` must have an even length (see {@link padded}). */
export function encodeElement(
  encoding: Encoding,
  tag: Tag,
  content: { readonly vr: string; readonly value: Uint8Array },
): Uint8Array {
  const { vr, value } = content;
  const long = encoding.explicit && LONG.has(vr);
  const head = long ? 12 : 8;
  const out = new Uint8Array(head + value.length);
  const view = new DataView(out.buffer);
  const little = encoding.littleEndian;
  view.setUint16(0, tag >>> 16, little);
  view.setUint16(2, tag & 0xffff, little);
  if (!encoding.explicit) view.setUint32(4, value.length, little);
  else {
    out[4] = vr.charCodeAt(0);
    out[5] = vr.charCodeAt(1);
    if (long) view.setUint32(8, value.length, little);
    else view.setUint16(6, value.length, little);
  }
  out.set(value, head);
  return out;
}

const ITEM: Tag = 0xfffee000;

/** Items of a sequence, each with its length, as the value of the sequence. */
export function encodeItems(encoding: Encoding, items: readonly Uint8Array[]): Uint8Array {
  return joined(
    items.map((item) => {
      // An item has no value representation in either encoding.
      return encodeElement({ ...encoding, explicit: false }, ITEM, { vr: '', value: item });
    }),
  );
}

/** ASCII text padded to an even length: UIDs with a zero byte, everything else with a space (PS3.5 6.2). */
export function padded(text: string, filler: ' ' | '\0' = ' '): Uint8Array {
  return new TextEncoder().encode(text.length % 2 === 0 ? text : text + filler);
}

export function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
