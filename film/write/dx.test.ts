import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { type PlainFilm, plainFilmElements, writePlainFilm, writeRawDicom } from './dx.ts';
import { uidOf } from './uid.ts';

const dir = mkdtempSync(join(tmpdir(), 'gapline-dx-'));
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const has = (command: string, ...args: string[]) => spawnSync(command, args).error === undefined;
const PYTHON = '/usr/bin/python3';
const peers = {
  dciodvfy: has('dciodvfy', '-version'),
  dcmdump: has('dcmdump', '--version'),
  pydicom: spawnSync(PYTHON, ['-c', 'import pydicom']).status === 0,
};

const film = (change: Partial<PlainFilm> = {}): PlainFilm => ({
  kind: 'dx',
  pixels: Uint16Array.from({ length: 40 * 51 }, (_, i) => (i * 37) % 4096),
  rows: 51,
  columns: 40,
  bitsStored: 12,
  monochrome1: false,
  window: { centre: 2048, width: 4096 },
  patient: { name: 'Invented^Zoë', id: 'T-1', sex: 'F', birthDate: '19500102' },
  study: { uid: uidOf('t/study'), date: '20250310', time: '090000', id: 'T1', description: 'Knee' },
  series: { uid: uidOf('t/series'), number: 1, description: 'AP' },
  instance: { uid: uidOf('t/image'), number: 1 },
  laterality: 'R',
  view: { position: 'AP', code: '399348003', meaning: 'antero-posterior' },
  region: { code: '72696002', meaning: 'Knee' },
  bodyPart: 'KNEE',
  orientation: ['L', 'F'],
  derived: null,
  spacing: { detectorMm: 0.148, sourceToDetectorMm: 1150, sourceToPatientMm: 1110 },
  exposure: { kvp: 66, mas: 6 },
  ...change,
});

const calibrated = { mm: [0.1287, 0.1287] as const, type: 'FIDUCIAL' as const, description: 'Ball of 25 mm' };
const variants: [string, PlainFilm][] = [
  ['dx', film()],
  ['dx inverted', film({ monochrome1: true })],
  ['dx joined, both legs', film({ laterality: 'B', derived: { stitched: true, description: 'Joined' } })],
  ['dx with magnification', film({ spacing: { ...film().spacing, magnificationFactor: 1.15 } })],
  ['dx calibrated', film({ spacing: { ...film().spacing, calibrated } })],
  ['dx 14 bit', film({ bitsStored: 14 })],
  ['cr', film({ kind: 'cr' })],
  ['cr inverted', film({ kind: 'cr', monochrome1: true })],
  ['cr, both legs', film({ kind: 'cr', laterality: 'B', derived: { stitched: true, description: 'Joined' } })],
];

function written(name: string, bytes: Uint8Array): string {
  const path = join(dir, `${name.replaceAll(/\W+/g, '-')}.dcm`);
  writeFileSync(path, bytes);
  return path;
}

describe('plain films as DICOM, judged by programs of others', () => {
  test.skipIf(!peers.dciodvfy).each(variants)('dciodvfy finds no error in: %s', (name, f) => {
    const run = spawnSync('dciodvfy', [written(name, writePlainFilm(f))], { encoding: 'utf8' });
    expect(`${run.stdout}${run.stderr}`.split('\n').filter((l) => l.startsWith('Error'))).toEqual([]);
  });

  test.skipIf(!peers.dcmdump).each(variants)('dcmdump reads: %s', (name, f) => {
    const run = spawnSync('dcmdump', [written(name, writePlainFilm(f))], { encoding: 'utf8' });
    expect(run.status).toBe(0);
    expect(run.stderr).toBe('');
    expect(run.stdout).toContain(f.monochrome1 ? '[MONOCHROME1]' : '[MONOCHROME2]');
    expect(run.stdout).toMatch(/\(0018,1164\) DS \[0\.148\\0\.148\]/);
  });

  test.skipIf(!peers.pydicom)('pydicom reads the same pixels and the same tags', () => {
    const f = film({ spacing: { ...film().spacing, calibrated } });
    const path = written('pixels', writePlainFilm(f));
    const script = [
      'import pydicom, sys',
      'd = pydicom.dcmread(sys.argv[1])',
      'print(d.Rows, d.Columns, d.ImageLaterality, str(d.PatientName), d.PixelSpacing[0], d.PixelSpacingCalibrationType)',
      'print(",".join(str(int.from_bytes(d.PixelData[i:i+2], "little")) for i in range(0, len(d.PixelData), 2)))',
    ].join('\n');
    const run = spawnSync(PYTHON, ['-c', script, path], { encoding: 'utf8' });
    const [tags, pixels] = run.stdout.trim().split('\n');
    expect(tags).toBe('51 40 R Invented^Zoë 0.1287 FIDUCIAL');
    expect(pixels?.split(',').map(Number)).toEqual([...f.pixels]);
  });
});

describe('the writer itself', () => {
  test('same film, same bytes', () => {
    expect(writePlainFilm(film())).toEqual(writePlainFilm(film()));
  });

  test('raw elements may be changed before writing', () => {
    const f = film();
    const bytes = writeRawDicom({ ...plainFilmElements(f), ImageLaterality: 'L' }, f.pixels);
    expect(bytes.slice(128, 132)).toEqual(new TextEncoder().encode('DICM'));
    expect(bytes).not.toEqual(writePlainFilm(f));
  });

  test('identifiers depend on the name alone and are valid', () => {
    expect(uidOf('a')).toBe(uidOf('a'));
    expect(uidOf('a')).not.toBe(uidOf('b'));
    expect(uidOf('a')).toMatch(/^2\.25\.[1-9][0-9]{0,38}$/);
  });
});
