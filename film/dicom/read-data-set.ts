import { cannot, type Outcome, ok, type Reason } from '@gapline/core/measure/outcome.ts';
import type { DataSet, Element, Encoding, Piece } from './data-set.ts';
import { tagName } from './data-set.ts';

/** More than any film needs; a file beyond is hostile or broken. */
const MAX_DEPTH = 24;
const MAX_ELEMENTS = 200_000;

const UNDEFINED_LENGTH = 0xffffffff;
const ITEM = 0xfffee000;
const ITEM_END = 0xfffee00d;
const SEQUENCE_END = 0xfffee0dd;
export const PIXEL_DATA = 0x7fe00010;

/** Value representations with a 16-bit length; every other one has 32 bits (PS3.5 7.1.2). */
const SHORT = new Set('AE AS AT CS DA DS DT FD FL IS LO LT PN SH SL SS ST TM UI UL US'.split(' '));

interface State {
  readonly bytes: Uint8Array;
  readonly view: DataView;
  count: number;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly encoding: Encoding;
  readonly depth: number;
}

interface Read<T> {
  readonly value: T;
  /** First byte after what was read. */
  readonly next: number;
}

/**
 * Reads the elements of a data set between two offsets, sequences included, without copying a value.
 * Tolerates what real archives write: undefined lengths, sequences sent as UN, implicit sequences,
 * bytes after the pixel data. Refuses elements that run past the end, and depth and number beyond reason.
 * Source: DICOM PS3.5 chapter 7 and annex A.
 */
export function readDataSet(bytes: Uint8Array, from: number, encoding: Encoding): Outcome<DataSet> {
  const state = { bytes, view: new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength), count: 0 };
  const read = elements(state, { from, to: bytes.length, encoding, depth: 0 });
  if (!read.ok) return read;
  return ok(read.value.value, read.warnings);
}

/** Elements up to the end of the stretch, or up to an item delimiter when it is open-ended. */
function elements(state: State, stretch: Stretch): Outcome<Read<DataSet>> {
  const { encoding, depth, to } = stretch;
  const found = new Map<number, Element>();
  const done = (next: number) => ok({ value: { bytes: state.bytes, encoding, elements: found }, next });
  if (depth > MAX_DEPTH) return malformed('sequences are nested deeper than any film has them', stretch.from);
  let at = stretch.from;
  while (at + 8 <= to) {
    const tag = tagAt(state, at, encoding);
    if (tag === ITEM_END) return done(at + 8);
    state.count += 1;
    if (state.count > MAX_ELEMENTS) return malformed('it holds more elements than any film has', at);
    const read = element(state, { ...stretch, from: at });
    if (!read.ok) {
      // What follows the pixel data of the whole file cannot change the film.
      if (depth === 0 && found.has(PIXEL_DATA)) return { ...done(at), warnings: [trailing(at)] };
      return read;
    }
    if (!found.has(tag)) found.set(tag, read.value.value);
    at = read.value.next;
  }
  if (at < to && !(depth === 0 && found.has(PIXEL_DATA))) return malformed('it ends inside an element', at);
  return done(to);
}

function element(state: State, stretch: Stretch): Outcome<Read<Element>> {
  const head = header(state, stretch);
  if (!head.ok) return head;
  const { tag, vr, at, length } = head.value;
  const start = stretch.from;
  const encoding = vr === 'UN' && stretch.encoding.explicit ? IMPLICIT : stretch.encoding;
  if (length === UNDEFINED_LENGTH) {
    if (tag === PIXEL_DATA || vr === 'OB' || vr === 'OW') return encapsulated(state, stretch, { tag, vr, at, start });
    const inside = { ...stretch, encoding, from: at, depth: stretch.depth + 1 };
    const items = sequence(state, inside, true);
    if (!items.ok) return items;
    const { value, next } = items.value;
    return ok({ value: { tag, vr: 'SQ', start, at, length: next - at, items: value }, next });
  }
  const next = at + length;
  if (next > stretch.to) return truncated(tag, length, stretch.to - at);
  if (vr === 'SQ' || (vr === 'UN' && looksLikeItems(state, { from: at, to: next, encoding, depth: 0 }))) {
    const before = state.count;
    const items = sequence(state, { from: at, to: next, encoding, depth: stretch.depth + 1 }, false);
    if (items.ok) return ok({ value: { tag, vr: 'SQ', start, at, length, items: items.value.value }, next });
    if (vr === 'SQ') return items;
    state.count = before;
  }
  return ok({ value: { tag, vr, start, at, length }, next });
}

const IMPLICIT: Encoding = { explicit: false, littleEndian: true };

interface Header {
  readonly tag: number;
  readonly vr: string;
  readonly at: number;
  readonly length: number;
}

function header(state: State, { from, to, encoding }: Stretch): Outcome<Header> {
  const { view, bytes } = state;
  const little = encoding.littleEndian;
  const tag = tagAt(state, from, encoding);
  if (!encoding.explicit || tag === ITEM || tag === SEQUENCE_END) {
    const vr = tag === PIXEL_DATA ? 'OW' : 'UN';
    return ok({ tag, vr, at: from + 8, length: view.getUint32(from + 4, little) });
  }
  const vr = String.fromCharCode(bytes[from + 4] as number, bytes[from + 5] as number);
  if (SHORT.has(vr)) return ok({ tag, vr, at: from + 8, length: view.getUint16(from + 6, little) });
  if (!/^[A-Z]{2}$/.test(vr)) return malformed(`element ${tagName(tag)} has no known value representation`, from);
  if (from + 12 > to) return malformed('it ends inside an element', from);
  return ok({ tag, vr, at: from + 12, length: view.getUint32(from + 8, little) });
}

/** Items of a sequence; an open-ended one closes with its delimiter, a counted one with its last byte. */
function sequence(state: State, stretch: Stretch, open: boolean): Outcome<Read<DataSet[]>> {
  const { encoding, to, depth } = stretch;
  const items: DataSet[] = [];
  let at = stretch.from;
  while (at + 8 <= to) {
    const tag = tagAt(state, at, encoding);
    if (open && tag === SEQUENCE_END) return ok({ value: items, next: at + 8 });
    if (tag === SEQUENCE_END) break;
    if (tag !== ITEM) return malformed(`a sequence holds ${tagName(tag)} where an item should start`, at);
    state.count += 1;
    if (state.count > MAX_ELEMENTS) return malformed('it holds more items than any film has', at);
    const length = state.view.getUint32(at + 4, encoding.littleEndian);
    const end = length === UNDEFINED_LENGTH ? to : at + 8 + length;
    if (end > to) return truncated(ITEM, length, to - at - 8);
    const item = elements(state, { encoding, depth, from: at + 8, to: end });
    if (!item.ok) return item;
    items.push(item.value.value);
    at = length === UNDEFINED_LENGTH ? item.value.next : end;
  }
  return open ? malformed('a sequence is not closed', at) : ok({ value: items, next: to });
}

type Opening = Pick<Element, 'tag' | 'vr' | 'at' | 'start'>;

/** Encapsulated pixel data: an offset table, then fragments, then a delimiter (PS3.5 A.4). */
function encapsulated(state: State, stretch: Stretch, opening: Opening): Outcome<Read<Element>> {
  const { encoding, to } = stretch;
  const pieces: Piece[] = [];
  let at = opening.at;
  while (at + 8 <= to && tagAt(state, at, encoding) === ITEM) {
    const length = state.view.getUint32(at + 4, encoding.littleEndian);
    if (at + 8 + length > to) return truncated(opening.tag, length, to - at - 8);
    pieces.push({ at: at + 8, length });
    if (pieces.length > MAX_ELEMENTS) return malformed('its pixel data has too many pieces', at);
    at += 8 + length;
  }
  const closed = at + 8 <= to && tagAt(state, at, encoding) === SEQUENCE_END;
  // An unclosed end is harmless when every piece is whole and nothing follows.
  if (!closed && at < to) return malformed('its pixel data is not closed', at);
  const [table, ...fragments] = pieces;
  const frameOffsets: number[] = [];
  for (let i = 0; table && i + 4 <= table.length; i += 4) {
    frameOffsets.push(state.view.getUint32(table.at + i, encoding.littleEndian));
  }
  const next = closed ? at + 8 : to;
  return ok({ value: { ...opening, length: next - opening.at, fragments, frameOffsets }, next });
}

const looksLikeItems = (state: State, { from, to, encoding }: Stretch) =>
  to - from >= 8 &&
  tagAt(state, from, encoding) === ITEM &&
  (state.view.getUint32(from + 4, encoding.littleEndian) === UNDEFINED_LENGTH ||
    from + 8 + state.view.getUint32(from + 4, encoding.littleEndian) <= to);

const tagAt = ({ view }: State, at: number, { littleEndian }: Encoding) =>
  ((view.getUint16(at, littleEndian) << 16) | view.getUint16(at + 2, littleEndian)) >>> 0;

const malformed = (what: string, at: number) =>
  cannot({
    code: 'dicom-malformed',
    message: `The DICOM file is damaged: ${what} (byte ${at}).`,
    mend: 'Export the film again from the archive.',
  });

const truncated = (tag: number, length: number, there: number) =>
  cannot({
    code: 'dicom-truncated',
    message: `The DICOM file is cut short: ${tagName(tag)} says ${length} bytes, ${Math.max(there, 0)} are there.`,
    field: tagName(tag),
    mend: 'Copy or export the film again; the transfer did not finish.',
  });

const trailing = (at: number): Reason => ({
  code: 'dicom-trailing-bytes',
  message: `The file goes on after its pixel data with bytes that are not DICOM (byte ${at}); they are ignored.`,
});
