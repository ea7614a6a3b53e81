import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { readDicomFile } from '../dicom/read-file.ts';
import { readIdentity } from '../identity.ts';
import { readFilm } from '../read-film.ts';
import { plainFilmElements, writeRawDicom } from '../write/dx.ts';
import { uidOf } from '../write/uid.ts';
import { stripActionOf } from './actions.ts';
import { stripIdentity } from './strip-identity.ts';

const SALT = 'a salt for the tests';
const dir = mkdtempSync(join(tmpdir(), 'gapline-strip-'));
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const stripped = (bytes: Uint8Array, salt = SALT): Uint8Array => {
  const done = stripIdentity(bytes, { salt });
  if (!done.ok) throw new Error(done.reason.message);
  return done.value;
};

const pixels = Uint16Array.from({ length: 40 * 51 }, (_, i) => (i * 37) % 4096);
const elements = plainFilmElements({
  kind: 'dx',
  pixels,
  rows: 51,
  columns: 40,
  bitsStored: 12,
  monochrome1: false,
  window: { centre: 2048, width: 4096 },
  patient: { name: 'Planted^Name', id: 'PLANTED-ID', sex: 'F', birthDate: '19500102' },
  study: { uid: uidOf('s/study'), date: '20250310', time: '090000', id: 'PLANTED1', description: 'PLANTED study' },
  series: { uid: uidOf('s/series'), number: 1, description: 'PLANTED series' },
  instance: { uid: uidOf('s/image'), number: 1 },
  laterality: 'R',
  view: { position: 'AP', code: '399348003', meaning: 'antero-posterior' },
  region: { code: '72696002', meaning: 'Knee' },
  bodyPart: 'KNEE',
  orientation: ['L', 'F'],
  derived: null,
  spacing: { detectorMm: 0.148, sourceToDetectorMm: 1150, sourceToPatientMm: 1110 },
  exposure: { kvp: 66, mas: 6 },
});

interface Entry {
  readonly tag: string;
  readonly vr: string;
  readonly name: string;
}
const { nameMap } = (
  createRequire(import.meta.url)('dcmjs') as { data: { DicomMetaDictionary: { nameMap: Record<string, Entry> } } }
).data.DicomMetaDictionary;

/** Every public attribute that holds free words, by the dictionary of dcmjs (PS3.6), with a word planted in it. */
function planted(): Record<string, string> {
  const words: Record<string, string> = {};
  for (const { tag, vr, name } of Object.values(nameMap)) {
    const at = /^\(([0-9A-F]{4}),([0-9A-F]{4})\)$/i.exec(tag);
    if (!at || !['LO', 'SH', 'LT', 'ST', 'PN', 'UT', 'UC', 'AE'].includes(vr)) continue;
    const group = Number.parseInt(at[1] ?? '', 16);
    if (group < 8 || group % 2 === 1 || group >= 0x5000 || name.startsWith('RETIRED')) continue;
    words[name] = vr === 'PN' ? 'PLANTED^WORD' : 'PLANTED WORD';
  }
  return words;
}

/** Attributes that stay although they hold words: none of them stands in PS3.15 table E.1-1. */
const WORDS_THAT_STAY = [
  'CodeValue',
  'CodingSchemeDesignator',
  'CodingSchemeVersion',
  'CodeMeaning',
  'Manufacturer',
  'PixelSpacingCalibrationDescription',
  'WindowCenterWidthExplanation',
  'LUTExplanation',
  'ModalityLUTType',
  'RescaleType',
];

describe('identity taken out', () => {
  test('FILM-6 a word planted in every attribute of the dictionary is nowhere in the bytes', () => {
    const words = planted();
    expect(Object.keys(words).length).toBeGreaterThan(600);
    for (const name of Object.keys(words)) {
      if (!WORDS_THAT_STAY.includes(name)) continue;
      delete words[name];
    }
    const bytes = writeRawDicom({ ...elements, ...words, PatientName: 'PLANTED^NAME' }, pixels);
    expect(Buffer.from(bytes).includes('PLANTED')).toBe(true);
    expect(Buffer.from(stripped(bytes)).includes('PLANTED')).toBe(false);
    expect(Buffer.from(stripped(bytes)).includes('19500102')).toBe(false);
    expect(Buffer.from(stripped(bytes)).includes('20250310')).toBe(false);
  });

  // Actions X, Z, D and U of PS3.15 table E.1-1 for attributes that DX, CR, SC and CT files carry.
  test.each(
    '0008,0014 0008,0018 0008,0020 0008,0021 0008,0022 0008,0023 0008,002a 0008,0030 0008,0050 0008,0080 0008,0081 0008,0090 0008,0092 0008,0094 0008,009c 0008,1010 0008,1030 0008,103e 0008,1040 0008,1048 0008,1050 0008,1060 0008,1070 0008,1080 0008,1084 0008,1110 0008,1111 0008,1120 0008,1140 0008,2111 0008,2112 0008,4000 0010,0010 0010,0020 0010,0030 0010,0032 0010,0040 0010,1000 0010,1001 0010,1005 0010,1010 0010,1020 0010,1030 0010,1040 0010,1060 0010,1080 0010,1081 0010,1090 0010,2000 0010,2110 0010,2150 0010,2154 0010,2160 0010,2180 0010,21a0 0010,21b0 0010,21c0 0010,21d0 0010,21f0 0010,4000 0012,0010 0012,0040 0016,004d 0018,0010 0018,1000 0018,1002 0018,1004 0018,1005 0018,1007 0018,1008 0018,1030 0018,1400 0018,4000 0018,700a 0018,9424 0018,a003 0020,000d 0020,000e 0020,0010 0020,0052 0020,0200 0020,4000 0028,1199 0028,1214 0028,4000 0032,1032 0032,1060 0038,0010 0038,0300 0040,0006 0040,0241 0040,0253 0040,0254 0040,0275 0040,0280 0040,0310 0040,0555 0040,2016 0040,a124 0040,a730 0070,0084 0088,0140 0400,0100 4000,0010 fffa,fffa'.split(
      ' ',
    ),
  )('FILM-6 %s is not kept as it is (PS3.15 table E.1-1)', (pair) => {
    const [group = '', element = ''] = pair.split(',');
    expect(['empty', 'remove', 'replace-uid']).toContain(
      stripActionOf(Number.parseInt(group, 16) * 0x10000 + Number.parseInt(element, 16)),
    );
  });

  test('FILM-6 private elements, curves and overlays go', () => {
    for (const group of [0x0009, 0x0011, 0x0019, 0x5000, 0x6000, 0x6002, 0x7fe1])
      expect(stripActionOf(group * 0x10000 + 0x3000)).toBe('remove');
  });

  test('FILM-6 scale, view, side and every pixel stay', () => {
    const bytes = writeRawDicom(elements, pixels);
    const before = readFilm(bytes, 'before.dcm');
    const after = readFilm(stripped(bytes), 'after.dcm');
    if (!before.ok || !after.ok) throw new Error('not read');
    expect(after.value.scaleFacts).toEqual(before.value.scaleFacts);
    expect([after.value.view, after.value.columnsTowards, after.value.laterality]).toEqual([
      before.value.view,
      before.value.columnsTowards,
      before.value.laterality,
    ]);
    expect(after.value.pixels).toEqual(before.value.pixels);
    expect(after.value.takenOn).toBeUndefined();
    expect(readIdentity(stripped(bytes))).toMatchObject({ ok: true, value: {} });
  });

  test('FILM-6 new UIDs are the same under one salt, others under another, and never the old ones', () => {
    const bytes = writeRawDicom(elements, pixels);
    const uids = (b: Uint8Array) => {
      const film = readFilm(b, 'x');
      return film.ok ? film.value.uids : {};
    };
    expect(uids(stripped(bytes))).toEqual(uids(stripped(bytes)));
    expect(uids(stripped(bytes)).study).not.toBe(uids(bytes).study);
    expect(uids(stripped(bytes, 'quite another salt')).study).not.toBe(uids(stripped(bytes)).study);
    expect(stripIdentity(bytes, { salt: 'short' })).toMatchObject({ ok: false, reason: { code: 'salt-too-short' } });
  });

  test('FILM-6 the same file stripped twice says the same of itself and reads as DX without faults (dciodvfy, dcmdump)', () => {
    const path = join(dir, 'stripped.dcm');
    writeFileSync(path, stripped(writeRawDicom(elements, pixels)));
    const dump = spawnSync('dcmdump', [path], { encoding: 'utf8' });
    expect(dump.status).toBe(0);
    expect(dump.stdout).toMatch(/\(0012,0062\) CS \[YES\]/);
    expect(dump.stdout).toMatch(/113100/);
    const check = spawnSync('dciodvfy', [path], { encoding: 'utf8' });
    expect(`${check.stdout}${check.stderr}`.split('\n').filter((l) => l.startsWith('Error'))).toEqual([]);
  });

  const testdata = fileURLToPath(new URL('../testdata', import.meta.url));
  const samples = readdirSync(testdata, { recursive: true, encoding: 'utf8' })
    .filter((f) => f.endsWith('.dcm'))
    .sort();

  test.each(samples)('FILM-6 %s: pixels bit by bit as they were, no name left', (file) => {
    const bytes = readFileSync(join(testdata, file));
    const done = stripIdentity(bytes, { salt: SALT });
    const film = readFilm(bytes, file);
    if (!done.ok) {
      expect(film.ok).toBe(false);
      return;
    }
    const after = readFilm(done.value, file);
    expect(after.ok).toBe(film.ok);
    if (film.ok && after.ok) expect(after.value.pixels).toEqual(film.value.pixels);
    if (!film.ok && !after.ok) expect(after.reason.code).toBe(film.reason.code);
    expect(readIdentity(done.value)).toMatchObject({ ok: true, value: {} });
    const read = readDicomFile(done.value);
    expect(read.ok && [...read.value.data.elements.keys()].every((tag) => (tag >>> 16) % 2 === 0)).toBe(true);
  });

  test('FILM-6 PNG and JPEG lose their words and keep their picture', () => {
    const chunk = (type: string, data: Uint8Array) => {
      const out = new Uint8Array(12 + data.length);
      new DataView(out.buffer).setUint32(0, data.length, false);
      out.set(new TextEncoder().encode(type), 4);
      out.set(data, 8);
      return out;
    };
    const png = Buffer.concat([
      Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a),
      chunk('IHDR', new Uint8Array(13)),
      chunk('tEXt', Buffer.from('PLANTED')),
      chunk('IDAT', Buffer.from('picture')),
      chunk('IEND', new Uint8Array(0)),
    ]);
    const clean = Buffer.from(stripped(png));
    expect(clean.includes('PLANTED')).toBe(false);
    expect(clean.includes('picture')).toBe(true);
    const segment = (marker: number, text: string) =>
      Buffer.concat([Uint8Array.of(0xff, marker, 0, text.length + 2), Buffer.from(text)]);
    const scan = Buffer.concat([segment(0xda, 'scan'), Buffer.from('picture'), Uint8Array.of(0xff, 0xd9)]);
    const jpeg = Buffer.concat([
      Uint8Array.of(0xff, 0xd8),
      segment(0xe0, 'JFIF'),
      segment(0xe1, 'PLANTED'),
      segment(0xfe, 'PLANTED'),
      scan,
    ]);
    const left = Buffer.from(stripped(jpeg));
    expect(left.includes('PLANTED')).toBe(false);
    expect(left.includes('JFIF') && left.includes('picture')).toBe(true);
  });

  test('FILM-6 words burned into the picture are warned of unless the file says there are none', () => {
    const codes = (burned: string) => {
      const done = stripIdentity(writeRawDicom({ ...elements, BurnedInAnnotation: burned }, pixels), { salt: SALT });
      return done.ok ? done.warnings.map((w) => w.code) : [];
    };
    expect(codes('YES')).toContain('words-on-the-picture');
    expect(codes('NO')).not.toContain('words-on-the-picture');
  });
});
