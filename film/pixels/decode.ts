import { cannot, type Outcome, ok, type Warning } from '@gapline/core/measure/outcome.ts';
import type { DicomFile } from '../dicom/read-file.ts';
import { TAG } from '../dicom/tags.ts';
import type { FilmPixels } from '../film.ts';
import { firstFrame } from './first-frame.ts';
import { luma, storedValues } from './grey-values.ts';
import type { PixelLayout } from './layout.ts';
import { rawSamples } from './raw.ts';
import type { Samples } from './stored-samples.ts';
import { unpackFrame } from './unpack.ts';

/** Stored grey values of the first frame; colour becomes grey with a warning. */
export function decodePixels(file: DicomFile, layout: PixelLayout): Outcome<FilmPixels> {
  const samples = readSamples(file, layout);
  if (!samples.ok) return samples;
  const warnings: Warning[] = [...samples.warnings];
  if (layout.frames > 1) {
    warnings.push({
      code: 'film-first-frame-only',
      message: `The file holds ${layout.frames} frames; the first is used.`,
      field: '(0028,0008)',
    });
  }
  if (layout.samples === 1) return ok(storedValues(samples.value, layout), warnings);
  warnings.push({ code: 'film-colour-to-grey', message: 'The picture is in colour; its brightness is used.' });
  return ok(luma(samples.value, layout), warnings);
}

function readSamples(file: DicomFile, layout: PixelLayout): Outcome<Samples> {
  const element = file.data.elements.get(TAG.PixelData);
  if (!element) return NO_PIXELS;
  if (file.syntax.packing === 'refused') {
    return cannot({
      code: 'transfer-syntax-refused',
      message: `The film is packed as ${file.syntax.name}, which is not read here.`,
      field: '(0002,0010)',
      mend: 'Export it again uncompressed (Explicit VR Little Endian).',
    });
  }
  if (file.syntax.packing === 'raw' || file.syntax.packing === 'deflated') {
    if (element.fragments) return NOT_AS_STATED;
    return rawSamples(file.data, element, layout);
  }
  if (!element.fragments) return NOT_AS_STATED;
  const frame = firstFrame(file.data, element, layout.frames);
  return frame.ok ? unpackFrame(frame.value, layout, file.syntax) : frame;
}

const NO_PIXELS = cannot({
  code: 'pixels-missing',
  message: 'The file holds no pixel data.',
  field: '(7FE0,0010)',
  mend: 'Export the picture itself, not only its header or report.',
});

const NOT_AS_STATED = cannot({
  code: 'pixels-not-as-stated',
  message: 'The pixel data is not packed as the transfer syntax says.',
  field: '(0002,0010)',
  mend: 'Export the film again from the archive.',
});
