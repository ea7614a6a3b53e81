import { joined } from './encode.ts';

/** Chunks of a PNG that make the picture; text, time and camera data are not among them. */
const PNG_KEPT = new Set(['IHDR', 'PLTE', 'IDAT', 'IEND', 'tRNS', 'gAMA', 'pHYs', 'sBIT', 'cHRM', 'sRGB']);

/** A PNG without its text, time and camera chunks; the picture itself is untouched. */
export function strippedPng(bytes: Uint8Array): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const parts = [bytes.subarray(0, 8)];
  for (let at = 8; at + 12 <= bytes.length; ) {
    const end = at + 12 + view.getUint32(at, false);
    if (end > bytes.length) break;
    const type = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    if (PNG_KEPT.has(type)) parts.push(bytes.subarray(at, end));
    at = end;
  }
  return joined(parts);
}

const COMMENT = 0xfe;
const APP0 = 0xe0;
const APP14 = 0xee;
const APP15 = 0xef;
const SCAN = 0xda;

/** A JPEG without comments and application segments, but for the two that say how its colours are meant. */
export function strippedJpeg(bytes: Uint8Array): Uint8Array {
  const parts = [bytes.subarray(0, 2)];
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff && bytes[at + 1] !== SCAN) {
    const marker = bytes[at + 1] as number;
    const end = at + 2 + (((bytes[at + 2] as number) << 8) | (bytes[at + 3] as number));
    if (end > bytes.length) break;
    const told = marker === COMMENT || (marker > APP0 && marker <= APP15 && marker !== APP14);
    if (!told) parts.push(bytes.subarray(at, end));
    at = end;
  }
  return joined([...parts, bytes.subarray(at)]);
}
