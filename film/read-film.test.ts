import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readDicomFile } from './dicom/read-file.ts';
import type { FilmPixels } from './film.ts';
import { decodePixels } from './pixels/decode.ts';
import { pixelLayout } from './pixels/layout.ts';
import { readFilm } from './read-film.ts';

const folder = join(import.meta.dirname, 'testdata');
const bytes = (name: string) => new Uint8Array(readFileSync(join(folder, name)));

/** File, columns x rows, start of the SHA-256 of the stored values: from testdata/independent.py (pydicom, dcmtk, GDCM). */
const READ: readonly (readonly [string, string, string])[] = [
  ['pydicom-data/HTJ2KLossless_08_RGB.dcm', '640x480', 'd8841633029ddaa8'],
  ['pydicom-data/JLSL_08_07_0_1F.dcm', '128x128', '210dc401f95db43b'],
  ['pydicom-data/JLSL_16_15_1_1F.dcm', '128x128', 'bb0a20c386271e83'],
  ['pydicom-data/JPEG-LL.dcm', '256x1024', 'a6e9d32143339d3f'],
  ['pydicom-data/mlut_18.dcm', '512x512', '9195d8833fb4ec4f'],
  ['pydicom-data/vlut_04.dcm', '512x512', '74853be063ef5655'],
  ['pydicom/CT_small.dcm', '128x128', '7a481f6ffff833ae'],
  ['pydicom/GDCMJ2K_TextGBR.dcm', '400x400', '37bb744b98d3521b'],
  ['pydicom/JPEG2000.dcm', '256x1024', '0b1224a6dcd0dceb'],
  ['pydicom/MR_small.dcm', '64x64', '88617aaa46138fb1'],
  ['pydicom/MR_small_RLE.dcm', '64x64', '88617aaa46138fb1'],
  ['pydicom/MR_small_bigendian.dcm', '64x64', '88617aaa46138fb1'],
  ['pydicom/MR_small_expb.dcm', '64x64', '88617aaa46138fb1'],
  ['pydicom/MR_small_implicit.dcm', '64x64', '88617aaa46138fb1'],
  ['pydicom/MR_small_jp2klossless.dcm', '64x64', '88617aaa46138fb1'],
  ['pydicom/MR_small_jpeg_ls_lossless.dcm', '64x64', '88617aaa46138fb1'],
  ['pydicom/MR_small_padded.dcm', '64x64', '88617aaa46138fb1'],
  ['pydicom/SC_jpeg_no_color_transform.dcm', '256x256', '6e82917f0cee1d87'],
  ['pydicom/SC_jpeg_no_color_transform_2.dcm', '256x256', 'cdd933e05e85e2a0'],
  ['pydicom/SC_rgb_dcmtk_+eb+cr.dcm', '100x100', '87141b6b2a62418b'],
  ['pydicom/SC_rgb_dcmtk_+eb+cy+n1.dcm', '100x100', '61b09acf2e341019'],
  ['pydicom/SC_rgb_dcmtk_+eb+cy+n2.dcm', '100x100', '9aab62cf114829a8'],
  ['pydicom/SC_rgb_dcmtk_+eb+cy+np.dcm', '100x100', '61b09acf2e341019'],
  ['pydicom/SC_rgb_dcmtk_+eb+cy+s2.dcm', '100x100', '9aab62cf114829a8'],
  ['pydicom/SC_rgb_dcmtk_+eb+cy+s4.dcm', '100x100', '9aab62cf114829a8'],
  ['pydicom/SC_rgb_gdcm_KY.dcm', '100x100', '612b58dd5db3ea00'],
  ['pydicom/SC_rgb_jpeg_app14_dcmd.dcm', '256x256', 'cdd933e05e85e2a0'],
  ['pydicom/SC_rgb_jpeg_dcmd.dcm', '256x256', '6e82917f0cee1d87'],
  ['pydicom/SC_rgb_jpeg_dcmtk.dcm', '100x100', '9aab62cf114829a8'],
  ['pydicom/SC_rgb_jpeg_gdcm.dcm', '100x100', '612b58dd5db3ea00'],
  ['pydicom/SC_rgb_jpeg_lossy_gdcm.dcm', '100x100', '1c24e7e10ddebe2f'],
  ['pydicom/SC_rgb_rle.dcm', '100x100', '612b58dd5db3ea00'],
  ['pydicom/SC_rgb_rle_16bit.dcm', '100x100', '3fd5e4adb4a801b6'],
  ['pydicom/SC_rgb_rle_16bit_2frame.dcm', '100x100', '3fd5e4adb4a801b6'],
  ['pydicom/SC_rgb_rle_2frame.dcm', '100x100', '612b58dd5db3ea00'],
  ['pydicom/SC_rgb_small_odd.dcm', '3x3', '82ba3c6a2c90533c'],
  ['pydicom/SC_rgb_small_odd_jpeg.dcm', '3x3', '82ba3c6a2c90533c'],
  ['pydicom/SC_ybr_full_422_uncompressed.dcm', '100x100', 'ec1e8df298ca5c87'],
  ['pydicom/image_dfl.dcm', '512x512', '1f5f1b1c1a57606a'],
];

/** Read, but no independent program decodes them: compared with another file of the same picture instead. */
const SAME_PICTURE: readonly (readonly [string, string, number])[] = [
  ['pydicom/SC_rgb_jpeg.dcm', 'pydicom/SC_jpeg_no_color_transform.dcm', 0],
  ['pydicom-data/HTJ2K_08_RGB.dcm', 'pydicom-data/HTJ2KLossless_08_RGB.dcm', 1.5],
];

/** File, code of the reason, words of the message. */
const REFUSED: readonly (readonly [string, string, string])[] = [
  ['pydicom-data/JPGLosslessP14SV1_1s_1f_8b.dcm', 'not-a-film', 'an ultrasound picture'],
  ['pydicom-data/emri_small_jpeg_2k_lossless_too_short.dcm', 'not-a-film', 'an enhanced (multi-frame) MR'],
  ['pydicom-data/liver_deflate.dcm', 'not-a-film', 'a segmentation'],
  ['pydicom-data/liver_nonbyte_aligned.dcm', 'not-a-film', 'a segmentation'],
  ['pydicom/ExplVR_BigEnd.dcm', 'not-a-film', 'an ultrasound picture'],
  ['pydicom/ExplVR_BigEndNoMeta.dcm', 'not-a-film', 'a radiotherapy plan'],
  ['pydicom/ExplVR_LitEndNoMeta.dcm', 'not-a-film', 'a radiotherapy plan'],
  ['pydicom/JPEG-lossy.dcm', 'transfer-syntax-refused', 'JPEG Extended 12 bit'],
  ['pydicom/JPEG2000-embedded-sequence-delimiter.dcm', 'pixels-not-readable', 'its compressed data 3722445056 x 1024'],
  ['pydicom/JPGExtended.dcm', 'transfer-syntax-refused', 'JPEG Extended 12 bit'],
  ['pydicom/MR_truncated.dcm', 'dicom-truncated', 'says 8192 bytes, 8130 are there'],
  ['pydicom/SC_rgb_rle_32bit.dcm', 'pixels-not-readable', '32 bits a pixel'],
  ['pydicom/SC_rgb_rle_32bit_2frame.dcm', 'pixels-not-readable', '32 bits a pixel'],
  ['pydicom/UN_sequence.dcm', 'pixels-not-readable', 'states no size'],
  ['pydicom/badVR.dcm', 'not-a-film', 'a radiotherapy dose'],
  ['pydicom/empty_charset_LEI.dcm', 'pixels-not-readable', 'states no size'],
  ['pydicom/liver_1frame.dcm', 'not-a-film', 'a segmentation'],
  ['pydicom/liver_expb_1frame.dcm', 'not-a-film', 'a segmentation'],
  ['pydicom/meta_missing_tsyntax.dcm', 'pixels-not-readable', 'states no size'],
  ['pydicom/nested_priv_SQ.dcm', 'pixels-not-readable', 'states no size'],
  ['pydicom/no_meta.dcm', 'not-a-film', 'neither DICOM'],
  ['pydicom/no_meta_group_length.dcm', 'pixels-not-readable', 'states no size'],
  ['pydicom/priv_SQ.dcm', 'pixels-not-readable', 'states no size'],
  ['pydicom/reportsi.dcm', 'not-a-film', 'a report'],
  ['pydicom/reportsi_with_empty_number_tags.dcm', 'not-a-film', 'a report'],
  ['pydicom/rtdose.dcm', 'not-a-film', 'a radiotherapy dose'],
  ['pydicom/rtdose_1frame.dcm', 'not-a-film', 'a radiotherapy dose'],
  ['pydicom/rtdose_expb.dcm', 'not-a-film', 'a radiotherapy dose'],
  ['pydicom/rtdose_expb_1frame.dcm', 'not-a-film', 'a radiotherapy dose'],
  ['pydicom/rtdose_rle.dcm', 'not-a-film', 'a radiotherapy dose'],
  ['pydicom/rtdose_rle_1frame.dcm', 'not-a-film', 'a radiotherapy dose'],
  ['pydicom/rtplan.dcm', 'not-a-film', 'a radiotherapy plan'],
  ['pydicom/rtplan_truncated.dcm', 'dicom-truncated', 'cut short'],
  ['pydicom/rtstruct.dcm', 'not-a-film', 'a radiotherapy structure set'],
  ['pydicom/test-SR.dcm', 'not-a-film', 'a report'],
];

const film = (name: string) => {
  const outcome = readFilm(bytes(name), name);
  if (!outcome.ok) throw new Error(outcome.reason.message);
  return outcome.value;
};

const digest = (pixels: FilmPixels) =>
  createHash('sha256')
    .update(new Uint8Array(pixels.buffer, pixels.byteOffset, pixels.byteLength))
    .digest('hex')
    .slice(0, 16);

describe('sample files', () => {
  test.each(READ)('FILM-1 %s is read, %s, with the pixels of an independent reader', (name, size, expected) => {
    const { rows, columns, pixels } = film(name);
    expect(`${columns}x${rows}`).toBe(size);
    expect(digest(pixels)).toBe(expected);
  });

  test.each(SAME_PICTURE)('FILM-1 %s shows the picture of %s', (name, other, tolerance) => {
    const [a, b] = [film(name).pixels, film(other).pixels];
    expect(a.length).toBe(b.length);
    const apart = Array.from(a).reduce((sum, v, i) => sum + Math.abs(v - (b[i] as number)), 0) / a.length;
    expect(apart).toBeLessThanOrEqual(tolerance);
  });

  test.each(REFUSED)('FILM-1 %s is refused: %s, %s', (name, code, words) => {
    const outcome = readFilm(bytes(name), name);
    expect(outcome).toMatchObject({ ok: false, reason: { code } });
    if (outcome.ok) return;
    expect(outcome.reason.message).toContain(words);
    expect(outcome.reason.message.startsWith(`${name}: `)).toBe(true);
    expect(outcome.reason.mend).toBeTruthy();
  });

  test('FILM-1 every sample file is listed with its outcome', () => {
    const there = ['pydicom', 'pydicom-data'].flatMap((sub) =>
      readdirSync(join(folder, sub))
        .filter((f) => f.endsWith('.dcm'))
        .map((f) => `${sub}/${f}`),
    );
    const listed = [...READ, ...SAME_PICTURE, ...REFUSED].map(([name]) => name);
    expect(listed.toSorted()).toEqual(there.toSorted());
  });

  // Refused as ultrasound, yet their big-endian colour planes and 8-bit lossless JPEG must decode all the same.
  test.each([
    ['pydicom/ExplVR_BigEnd.dcm', 'e21f8f79cc7af448'],
    ['pydicom-data/JPGLosslessP14SV1_1s_1f_8b.dcm', '36e27e4f1e87a7d5'],
  ])('FILM-1 the pixels of %s decode like those of an independent reader', (name, expected) => {
    const file = readDicomFile(bytes(name));
    const layout = file.ok ? pixelLayout(file.value.data) : file;
    if (!file.ok || !layout.ok) throw new Error('not read');
    const pixels = decodePixels(file.value, layout.value);
    expect(pixels.ok && digest(pixels.value)).toBe(expected);
  });
});

describe('what a film states', () => {
  test('FILM-1 warnings name what was tolerated', () => {
    const codes = (name: string) => {
      const outcome = readFilm(bytes(name), name);
      return outcome.ok ? outcome.warnings.map((w) => w.code) : [];
    };
    expect(codes('pydicom/SC_rgb_rle_2frame.dcm')).toEqual(['film-first-frame-only', 'film-colour-to-grey']);
    expect(codes('pydicom/SC_rgb_jpeg.dcm')).toEqual(['dicom-other-encoding', 'film-colour-to-grey']);
    expect(codes('pydicom/MR_small_padded.dcm')).toEqual([]);
  });

  test('FILM-5 a film holds no name, number, sex or day of birth', () => {
    const text = JSON.stringify({ ...film('pydicom/CT_small.dcm'), pixels: null });
    for (const secret of ['CompressedSamples', '1CT1']) {
      expect(Buffer.from(bytes('pydicom/CT_small.dcm')).includes(secret)).toBe(true);
      expect(text).not.toContain(secret);
    }
  });

  test('FILM-1 a CT slice states modality, day, scale and its place in the study', () => {
    // Values printed by dcmdump.
    expect(film('pydicom/CT_small.dcm')).toMatchObject({
      modality: 'CT',
      view: 'ct',
      takenOn: '1997-04-30',
      scaleFacts: { volumetric: true, pixelSpacing: [0.661468, 0.661468] },
      grey: { modality: { kind: 'rescale', slope: 1, intercept: -1024 }, inverted: false },
      uids: { instance: '1.3.6.1.4.1.5962.1.1.1.1.1.20040119072730.12322' },
    });
  });
});
