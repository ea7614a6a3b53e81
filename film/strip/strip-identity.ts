import { cannot, type Outcome, ok, type Warning } from '@gapline/core/measure/outcome.ts';
import type { DataSet, Encoding, Tag } from '../dicom/data-set.ts';
import { type DicomFile, looksLikeDicom, readDicomFile } from '../dicom/read-file.ts';
import { TAG } from '../dicom/tags.ts';
import { text } from '../dicom/values.ts';
import { isPlainPicture } from '../plain-picture.ts';
import { encodeElement, encodeItems, joined, padded } from './encode.ts';
import { cleanedElements, replacedUid } from './strip-data-set.ts';
import { strippedJpeg, strippedPng } from './strip-picture.ts';

export interface StripOptions {
  /** Secret of the installation: the same salt gives the same new UIDs, so that films of one study stay together. */
  readonly salt: string;
}

const EXPLICIT: Encoding = { explicit: true, littleEndian: true };
const EXPLICIT_LITTLE_ENDIAN = '1.2.840.10008.1.2.1';
/** Of this project, of the 2.25 form (PS3.5 B.2). */
const IMPLEMENTATION = '2.25.176290573310463250398312847265129';

/**
 * Takes a patient's identity out of a film's file (FILM-6), after the Basic Application Level Confidentiality Profile of
 * DICOM PS3.15 annex E: a list of what may stay, everything else removed; UIDs replaced consistently under a salt; pixel
 * data bit by bit as it was; spacing, view and side kept. Dates go too. Deflated files come out unpacked.
 * PNG and JPEG lose their text and camera data. Words burned into the picture are not removed: a warning says so when the
 * file states them or states nothing. Refuses what cannot be read as DICOM, PNG or JPEG.
 */
export function stripIdentity(bytes: Uint8Array, options: StripOptions): Outcome<Uint8Array> {
  if (options.salt.length < 8) return WEAK_SALT;
  const plain = new Uint8Array(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (isPlainPicture(plain)) return ok(plain[0] === 0x89 ? strippedPng(plain) : strippedJpeg(plain), [LOOK_AT_IT]);
  if (!looksLikeDicom(plain)) return NOT_A_FILM;
  const file = readDicomFile(plain);
  if (!file.ok) return file;
  const cleaned = new Map(cleanedElements(file.value.data, options.salt));
  for (const [tag, element] of statements(file.value.data.encoding)) cleaned.set(tag, element);
  const data = [...cleaned].sort(([a], [b]) => a - b).map(([, element]) => element);
  const burnedIn = text(file.value.data, TAG.BurnedInAnnotation) === 'NO' ? [] : [LOOK_AT_IT];
  return ok(joined([metaOf(file.value, options.salt), ...data]), [...file.warnings, ...burnedIn]);
}

/** What the profile asks the file to say of itself (PS3.15 E.2; code 113100 of PS3.16 CID 7050). */
function statements(encoding: Encoding): readonly (readonly [Tag, Uint8Array])[] {
  const say = (tag: Tag, vr: string, value: Uint8Array) => [tag, encodeElement(encoding, tag, { vr, value })] as const;
  const code = joined([
    encodeElement(encoding, 0x00080100, { vr: 'SH', value: padded('113100') }),
    encodeElement(encoding, 0x00080102, { vr: 'SH', value: padded('DCM') }),
    encodeElement(encoding, 0x00080104, { vr: 'LO', value: padded('Basic Application Confidentiality Profile') }),
  ]);
  return [
    say(0x00120062, 'CS', padded('YES')),
    say(0x00120063, 'LO', padded('List of what may stay; PS3.15 E basic profile')),
    say(0x00120064, 'SQ', encodeItems(encoding, [code])),
  ];
}

/** Preamble and file meta information, written anew (PS3.10 7.1). */
function metaOf(file: DicomFile, salt: string): Uint8Array {
  const uid = (set: DataSet | undefined, tag: Tag) => (set ? text(set, tag) : undefined);
  const sopClass = uid(file.data, TAG.SOPClassUID) ?? uid(file.meta, 0x00020002);
  const instance = uid(file.data, TAG.SOPInstanceUID) ?? uid(file.meta, 0x00020003);
  const syntax = file.syntax.packing === 'deflated' ? EXPLICIT_LITTLE_ENDIAN : encodedAs(file);
  const write = (tag: Tag, vr: string, value: Uint8Array) => encodeElement(EXPLICIT, tag, { vr, value });
  const rest = joined([
    write(0x00020001, 'OB', Uint8Array.of(0, 1)),
    ...(sopClass === undefined ? [] : [write(0x00020002, 'UI', padded(sopClass, '\0'))]),
    ...(instance === undefined ? [] : [write(0x00020003, 'UI', padded(replacedUid(instance, salt), '\0'))]),
    write(0x00020010, 'UI', padded(syntax, '\0')),
    write(0x00020012, 'UI', padded(IMPLEMENTATION, '\0')),
  ]);
  const length = new Uint8Array(4);
  new DataView(length.buffer).setUint32(0, rest.length, true);
  const preamble = new Uint8Array(132);
  preamble.set(padded('DICM'), 128);
  return joined([preamble, write(0x00020000, 'UL', length), rest]);
}

/** Some files state explicit elements and hold implicit ones: the new meta information states what is there. */
function encodedAs(file: DicomFile): string {
  const implicitInside = file.syntax.packing === 'raw' && !file.data.encoding.explicit;
  return implicitInside ? '1.2.840.10008.1.2' : file.syntax.uid;
}

const LOOK_AT_IT: Warning = {
  code: 'words-on-the-picture',
  message: 'Identity is out of the file; words burned into the picture itself stay and may name the patient.',
  field: '(0028,0301)',
  mend: 'Look at the picture before you pass it on.',
};

const WEAK_SALT = cannot({
  code: 'salt-too-short',
  message: 'Identity cannot be taken out: the salt for new UIDs is shorter than 8 characters.',
  field: 'salt',
  mend: 'Give a salt of at least 8 characters.',
});

const NOT_A_FILM = cannot({
  code: 'not-a-film',
  message: 'This is neither DICOM nor a PNG or JPEG picture.',
  mend: 'Give a DICOM film, or a PNG or JPEG picture.',
});
