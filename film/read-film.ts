import { cannot, type Outcome, ok, type Warning } from '@gapline/core/measure/outcome.ts';
import type { DataSet } from './dicom/data-set.ts';
import { looksLikeDicom, readDicomFile } from './dicom/read-file.ts';
import { TAG } from './dicom/tags.ts';
import { date, text } from './dicom/values.ts';
import type { Film } from './film.ts';
import { greyPipeline } from './grey/pipeline.ts';
import { decodePixels } from './pixels/decode.ts';
import { pixelLayout } from './pixels/layout.ts';
import { isPlainPicture, readPlainPicture } from './plain-picture.ts';
import { scaleFacts } from './scale-facts.ts';
import { lateralityFacts } from './side.ts';
import { filmModality, otherContent } from './sop-class.ts';
import { slicePlace } from './stack/slice-place.ts';
import { columnsTowards, filmView } from './view.ts';

/**
 * Reads one film: DICOM (DX, CR, SC, CT, MR slice) or a plain PNG or JPEG picture.
 *
 * Inputs: the file's bytes; its name, for messages only. Result: the film without the patient's identity
 * (see {@link readIdentity}), with warnings. Pixels may share the memory of `bytes`.
 * Refuses, with reason and mend, what holds no film, what is damaged, truncated, contradicts itself or
 * is larger than any film; never throws. What is read and refused: docs/films.md.
 */
export function readFilm(bytes: Uint8Array, fileName: string): Outcome<Film> {
  // A Node Buffer is a Uint8Array whose slices share memory; a plain view behaves the same everywhere.
  const plain = new Uint8Array(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const film = isPlainPicture(plain) ? readPlainPicture(plain) : readDicomFilm(plain);
  if (film.ok) return film;
  return cannot({ ...film.reason, message: `${fileName}: ${film.reason.message}` });
}

function readDicomFilm(bytes: Uint8Array): Outcome<Film> {
  if (bytes.length === 0) return EMPTY;
  if (!looksLikeDicom(bytes)) return NOT_A_FILM;
  const file = readDicomFile(bytes);
  if (!file.ok) return file;
  const set = file.value.data;
  const sopClass = text(set, TAG.SOPClassUID);
  const modality = sopClass === undefined ? text(set, TAG.Modality) : filmModality(sopClass);
  if (sopClass !== undefined && modality === undefined) return notAFilm(sopClass);
  const layout = pixelLayout(set);
  if (!layout.ok) return layout;
  const pixels = decodePixels(file.value, layout.value);
  if (!pixels.ok) return pixels;
  const { rows, columns, frames, bitsStored } = layout.value;
  const { grey, warnings } = greyPipeline(set, layout.value);
  const burnedIn = burnedInAnnotation(set);
  return ok(
    {
      rows,
      columns,
      frames,
      pixels: pixels.value,
      bitsStored,
      grey,
      ...facts(set, rows, columns),
      modality: modality ?? 'not stated',
      ...(sopClass === undefined ? {} : { sopClass }),
      burnedIn,
    },
    [...file.warnings, ...pixels.warnings, ...warnings, ...(burnedIn === 'yes' ? [BURNED_IN] : [])],
  );
}

function facts(set: DataSet, rows: number, columns: number) {
  const scale = scaleFacts(set, rows, columns);
  const spacing = scale.imagerPixelSpacing ?? scale.pixelSpacing;
  const bodyPart = text(set, TAG.BodyPartExamined);
  const takenOn = date(set, TAG.AcquisitionDate) ?? date(set, TAG.AcquisitionDateTime) ?? laterDates(set);
  const towards = columnsTowards(set);
  const slice = scale.volumetric ? slicePlace(set) : undefined;
  return {
    scaleFacts: scale,
    laterality: lateralityFacts(set),
    view: scale.volumetric ? ('ct' as const) : filmView(set, spacing && spacing[0] * rows),
    ...(bodyPart === undefined ? {} : { bodyPart }),
    ...(takenOn === undefined ? {} : { takenOn }),
    ...(towards === undefined ? {} : { columnsTowards: towards }),
    uids: uids(set),
    ...(slice === undefined ? {} : { slice }),
  };
}

/** Files without an acquisition date: the content's, the series', the study's, in this order. */
const laterDates = (set: DataSet) =>
  date(set, TAG.ContentDate) ?? date(set, TAG.SeriesDate) ?? date(set, TAG.StudyDate);

function uids(set: DataSet): Film['uids'] {
  const study = text(set, TAG.StudyInstanceUID);
  const series = text(set, TAG.SeriesInstanceUID);
  const instance = text(set, TAG.SOPInstanceUID);
  return { ...(study ? { study } : {}), ...(series ? { series } : {}), ...(instance ? { instance } : {}) };
}

function burnedInAnnotation(set: DataSet): Film['burnedIn'] {
  const stated = text(set, TAG.BurnedInAnnotation);
  return stated === 'YES' ? 'yes' : stated === 'NO' ? 'no' : 'not-stated';
}

const BURNED_IN: Warning = {
  code: 'burned-in-annotation',
  message: 'The file says that words are burned into the picture; they may name the patient.',
  field: '(0028,0301)',
  mend: 'Look at the picture before you pass it on; removing identity from the file does not remove them.',
};

const EMPTY = cannot({ code: 'file-empty', message: 'The file is empty.', mend: 'Copy or export the film again.' });

const NOT_A_FILM = cannot({
  code: 'not-a-film',
  message: 'This is neither DICOM nor a PNG or JPEG picture.',
  mend: 'Give a DICOM film, or a PNG or JPEG picture with a scale stated by hand.',
});

const notAFilm = (sopClass: string) =>
  cannot({
    code: 'not-a-film',
    message: `The file is ${otherContent(sopClass)}, not a film.`,
    field: '(0008,0016)',
    mend: 'Give a DX, CR, SC or CT image.',
  });
