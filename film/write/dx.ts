import { createRequire } from 'node:module';
import { uidOf } from './uid.ts';

/** A number or text of a DICOM element, or the items of a sequence. */
export type ElementValue = string | number | readonly (string | number)[] | readonly Attributes[];
/** Elements by their DICOM keyword, e.g. `PatientName`. Sequences are arrays of the same. */
export interface Attributes {
  readonly [keyword: string]: ElementValue;
}

interface Dcmjs {
  data: {
    DicomMetaDictionary: { denaturalizeDataset(d: object): object };
    DicomDict: new (meta: object) => { dict: object; write(options?: object): ArrayBuffer };
  };
  log?: { setLevel?: (level: string) => void };
}
const dcmjs = createRequire(import.meta.url)('dcmjs') as Dcmjs;

export const DX_FOR_PRESENTATION = '1.2.840.10008.5.1.4.1.1.1.1';
export const COMPUTED_RADIOGRAPHY = '1.2.840.10008.5.1.4.1.1.1';
const EXPLICIT_LITTLE_ENDIAN = '1.2.840.10008.1.2.1';

/**
 * Writes a DICOM Part 10 file, explicit little endian, from elements by keyword and 16-bit pixels, adding nothing of
 * its own but the file meta group. Same input, same bytes. `attributes` must hold SOPClassUID and SOPInstanceUID.
 */
export function writeRawDicom(attributes: Attributes, pixels?: Uint16Array | Uint8Array): Uint8Array {
  const { DicomMetaDictionary, DicomDict } = dcmjs.data;
  const meta = {
    '00020001': { vr: 'OB', Value: [new Uint8Array([0, 1]).buffer] },
    '00020002': { vr: 'UI', Value: [attributes.SOPClassUID] },
    '00020003': { vr: 'UI', Value: [attributes.SOPInstanceUID] },
    '00020010': { vr: 'UI', Value: [EXPLICIT_LITTLE_ENDIAN] },
    '00020012': { vr: 'UI', Value: [uidOf('implementation')] },
    '00020013': { vr: 'SH', Value: ['GAPLINE'] },
  };
  const file = new DicomDict(meta);
  const body = pixels
    ? { ...attributes, _vrMap: { PixelData: 'OW' }, PixelData: [exactBuffer(pixels)] }
    : { ...attributes };
  file.dict = DicomMetaDictionary.denaturalizeDataset(body);
  return new Uint8Array(file.write());
}

/** The bytes of the pixels alone, padded to even length. */
function exactBuffer(pixels: Uint16Array | Uint8Array): ArrayBuffer {
  const out = new Uint8Array(pixels.byteLength + (pixels.byteLength % 2));
  out.set(new Uint8Array(pixels.buffer, pixels.byteOffset, pixels.byteLength));
  return out.buffer;
}

/** Everything about a plain film that this writer turns into elements. Lengths in mm, times as DICOM writes them. */
export interface PlainFilm {
  readonly kind: 'dx' | 'cr';
  readonly pixels: Uint16Array;
  readonly rows: number;
  readonly columns: number;
  readonly bitsStored: 10 | 12 | 14 | 16;
  readonly monochrome1: boolean;
  readonly window: { readonly centre: number; readonly width: number };
  readonly patient: {
    readonly name: string;
    readonly id: string;
    readonly sex: 'F' | 'M' | 'O' | '';
    readonly birthDate: string;
  };
  readonly study: {
    readonly uid: string;
    readonly date: string;
    readonly time: string;
    readonly id: string;
    readonly description: string;
  };
  readonly series: { readonly uid: string; readonly number: number; readonly description: string };
  readonly instance: { readonly uid: string; readonly number: number };
  readonly laterality: 'R' | 'L' | 'B';
  readonly view: { readonly position: string; readonly code: string; readonly meaning: string };
  readonly region: { readonly code: string; readonly meaning: string };
  readonly bodyPart: string;
  /** Directions in which rows and columns run, e.g. `['L', 'F']`. */
  readonly orientation: readonly [string, string];
  readonly derived: { readonly stitched: boolean; readonly description: string } | null;
  readonly spacing: {
    readonly detectorMm: number;
    readonly sourceToDetectorMm: number;
    readonly sourceToPatientMm: number;
    readonly magnificationFactor?: number;
    /** Spacing in the patient, [row, column]. */
    readonly calibrated?: {
      readonly mm: readonly [number, number];
      readonly type: 'GEOMETRY' | 'FIDUCIAL';
      readonly description: string;
    };
  };
  readonly exposure: { readonly kvp: number; readonly mas: number };
  readonly comment?: string;
}

/** Decimal string of at most 16 characters. */
const ds = (value: number): string => {
  for (let digits = 12; digits > 0; digits--) {
    const text = String(Number(value.toPrecision(digits)));
    if (text.length <= 16) return text;
  }
  return '0';
};

const code = (value: string, meaning: string): Attributes => ({
  CodeValue: value,
  CodingSchemeDesignator: 'SCT',
  CodeMeaning: meaning,
});

function spacingElements({ kind, spacing }: PlainFilm): Attributes {
  const { detectorMm, calibrated, magnificationFactor } = spacing;
  return {
    ImagerPixelSpacing: [ds(detectorMm), ds(detectorMm)],
    DistanceSourceToDetector: ds(spacing.sourceToDetectorMm),
    DistanceSourceToPatient: ds(spacing.sourceToPatientMm),
    ...(magnificationFactor && kind === 'dx'
      ? { EstimatedRadiographicMagnificationFactor: ds(magnificationFactor) }
      : {}),
    ...(calibrated
      ? {
          PixelSpacing: calibrated.mm.map(ds),
          PixelSpacingCalibrationType: calibrated.type,
          PixelSpacingCalibrationDescription: calibrated.description,
        }
      : {}),
    ...(kind === 'dx' ? { PositionerType: 'NONE' } : {}),
  };
}

function pictureElements(film: PlainFilm): Attributes {
  const { derived } = film;
  return {
    ImageType: [
      derived ? 'DERIVED' : 'ORIGINAL',
      'PRIMARY',
      ...(film.kind === 'dx' ? [''] : []),
      ...(derived?.stitched ? ['STITCHED'] : []),
    ],
    ...(derived ? { DerivationDescription: derived.description } : {}),
    SamplesPerPixel: 1,
    PhotometricInterpretation: film.monochrome1 ? 'MONOCHROME1' : 'MONOCHROME2',
    Rows: film.rows,
    Columns: film.columns,
    BitsAllocated: 16,
    BitsStored: film.bitsStored,
    HighBit: film.bitsStored - 1,
    PixelRepresentation: 0,
    WindowCenter: ds(film.window.centre),
    WindowWidth: ds(film.window.width),
    ...(film.kind === 'dx'
      ? {
          PixelIntensityRelationship: 'LOG',
          PixelIntensityRelationshipSign: film.monochrome1 ? 1 : -1,
          RescaleIntercept: '0',
          RescaleSlope: '1',
          RescaleType: 'US',
          PresentationLUTShape: film.monochrome1 ? 'INVERSE' : 'IDENTITY',
          LossyImageCompression: '00',
          BurnedInAnnotation: 'NO',
          PresentationIntentType: 'FOR PRESENTATION',
        }
      : {}),
  };
}

function positionElements(film: PlainFilm): Attributes {
  const region = {
    ...code(film.region.code, film.region.meaning),
  };
  return {
    BodyPartExamined: film.bodyPart,
    ViewPosition: film.view.position,
    PatientOrientation: film.orientation,
    AnatomicRegionSequence: [region],
    ImageLaterality: film.laterality,
    ...(film.kind === 'dx'
      ? { ViewCodeSequence: [{ ...code(film.view.code, film.view.meaning), ViewModifierCodeSequence: [] }] }
      : {}),
  };
}

/** All elements of a plain film. Exported so that a caller may change some before writing. */
export function plainFilmElements(film: PlainFilm): Attributes {
  const { study, series, instance, patient } = film;
  return {
    SpecificCharacterSet: 'ISO_IR 192',
    SOPClassUID: film.kind === 'dx' ? DX_FOR_PRESENTATION : COMPUTED_RADIOGRAPHY,
    SOPInstanceUID: instance.uid,
    StudyDate: study.date,
    SeriesDate: study.date,
    AcquisitionDate: study.date,
    ContentDate: study.date,
    StudyTime: study.time,
    SeriesTime: study.time,
    AcquisitionTime: study.time,
    ContentTime: study.time,
    AccessionNumber: '',
    Modality: film.kind === 'dx' ? 'DX' : 'CR',
    Manufacturer: 'Gapline phantom (no device)',
    InstitutionName: 'Invented Hospital',
    ReferringPhysicianName: '',
    StudyDescription: study.description,
    SeriesDescription: series.description,
    PatientName: patient.name,
    PatientID: patient.id,
    PatientBirthDate: patient.birthDate,
    PatientSex: patient.sex,
    KVP: ds(film.exposure.kvp),
    ...(film.kind === 'dx' ? { ExposureInuAs: ds(Math.round(film.exposure.mas * 1000)) } : {}),
    SoftwareVersions: 'gapline-phantom 1',
    StudyInstanceUID: study.uid,
    SeriesInstanceUID: series.uid,
    StudyID: study.id,
    SeriesNumber: series.number,
    InstanceNumber: instance.number,
    ...(film.kind === 'dx' ? { AcquisitionContextSequence: [], DetectorType: 'DIRECT' } : {}),
    ...(film.comment ? { ImageComments: film.comment } : {}),
    ...positionElements(film),
    ...spacingElements(film),
    ...pictureElements(film),
  };
}

/** A plain film as a DICOM file: Digital X-Ray Image For Presentation, or Computed Radiography. */
export const writePlainFilm = (film: PlainFilm): Uint8Array => writeRawDicom(plainFilmElements(film), film.pixels);
