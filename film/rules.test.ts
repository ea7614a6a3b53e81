import { describe, expect, test } from 'vitest';
import { readIdentity } from './identity.ts';
import { toPicture } from './picture.ts';
import { readFilm } from './read-film.ts';
import { type LateralityStatement, statedSide } from './side.ts';
import { sideAgainstCase } from './side-against-case.ts';
import { type PlainFilm, plainFilmElements, writeRawDicom } from './write/dx.ts';
import { uidOf } from './write/uid.ts';

const pixels = Uint16Array.from({ length: 40 * 51 }, (_, i) => (i * 37) % 4096);
const plain: PlainFilm = {
  kind: 'dx',
  pixels,
  rows: 51,
  columns: 40,
  bitsStored: 12,
  monochrome1: false,
  window: { centre: 2048, width: 4096 },
  patient: { name: 'Invented^Name', id: 'T-1', sex: 'F', birthDate: '19500102' },
  study: { uid: uidOf('r/study'), date: '20250310', time: '090000', id: 'T1', description: 'Knee' },
  series: { uid: uidOf('r/series'), number: 1, description: 'AP' },
  instance: { uid: uidOf('r/image'), number: 1 },
  laterality: 'R',
  view: { position: 'AP', code: '399067008', meaning: 'lateral' },
  region: { code: '72696002', meaning: 'Knee' },
  bodyPart: 'KNEE',
  orientation: ['A', 'F'],
  derived: null,
  spacing: { detectorMm: 0.148, sourceToDetectorMm: 1150, sourceToPatientMm: 1110 },
  exposure: { kvp: 66, mas: 6 },
};
const read = (change: Partial<PlainFilm> = {}) => {
  const film = readFilm(writeRawDicom(plainFilmElements({ ...plain, ...change }), pixels), 'film.dcm');
  if (!film.ok) throw new Error(film.reason.message);
  return film.value;
};
const says = (
  side: LateralityStatement['says'],
  place: LateralityStatement['place'] = 'Image Laterality',
): LateralityStatement => ({ place, says: side, written: side });

describe('films', () => {
  test('FILM-2 a film cut short at any place ends with a film or one reason, never a fault', () => {
    const bytes = writeRawDicom(plainFilmElements(plain), pixels);
    for (let end = 0; end < bytes.length; end += 97) {
      const r = readFilm(bytes.slice(0, end), 'cut.dcm');
      expect(r.ok || r.reason.message.length > 0).toBe(true);
    }
  });
  test('FILM-3 MONOCHROME1 is inverted after the window, so both pictures run opposite ways', () => {
    const [a, b] = [toPicture(read()), toPicture(read({ monochrome1: true }))];
    const rising = (p: typeof a) => Math.sign((p.pixels[1] ?? 0) - (p.pixels[0] ?? 0));
    expect(rising(a)).toBe(1);
    expect(rising(b)).toBe(-1);
  });
  test('FILM-4 the picture stays linear: equal steps of stored values are equal steps on the screen', () => {
    const p = toPicture(read()).pixels;
    const step = (p[1] ?? 0) - (p[0] ?? 0);
    expect(step).toBeGreaterThan(0);
    expect((p[2] ?? 0) - (p[1] ?? 0)).toBe(step);
  });
  test('FILM-5 the film carries no name; identity is read by a call of its own', () => {
    expect(JSON.stringify({ ...read(), pixels: null })).not.toContain('Invented');
    expect(readIdentity(writeRawDicom(plainFilmElements(plain), pixels))).toMatchObject({
      ok: true,
      value: { id: 'T-1' },
    });
  });
  test('FILM-7 the code of the view supersedes its position', () => {
    expect(read().view).toBe('lateral');
  });
});

describe('side', () => {
  test('SIDE-1 the image laterality is read where the file states it', () => {
    expect(read().laterality[0]).toMatchObject({ place: 'Image Laterality', says: 'right' });
  });
  test('SIDE-2 two places that differ contradict each other, and nothing is inferred from silence', () => {
    expect(statedSide([says('right'), says('left', 'Laterality of the series')]).kind).toBe('disagree');
    expect(statedSide([]).kind).toBe('unknown');
    expect(statedSide([says('left')])).toMatchObject({ kind: 'agree', side: 'left' });
  });
  test('SIDE-3 a film of the other side is held until a person confirms', () => {
    const stated = statedSide([says('left')]);
    expect(sideAgainstCase(stated, 'right', { view: 'ap' })).toMatchObject({
      ok: false,
      reason: { code: 'side-held' },
    });
    expect(sideAgainstCase(stated, 'right', { view: 'ap', confirmed: true }).ok).toBe(true);
  });
  test('SIDE-4 a long-leg film of both legs needs no confirmation', () => {
    expect(sideAgainstCase(statedSide([says('both')]), 'right', { view: 'long-leg' })).toMatchObject({
      ok: true,
      value: 'both',
    });
  });
});
