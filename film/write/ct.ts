import { type Attributes, type PlainFilm, writeRawDicom } from './dx.ts';

export const CT_IMAGE = '1.2.840.10008.5.1.4.1.1.2';

type Vector = readonly [number, number, number];

/** Everything about one CT slice that this writer turns into elements. Lengths in mm. */
export interface CtSlice extends Pick<PlainFilm, 'patient' | 'study' | 'series'> {
  readonly instance: { readonly uid: string; readonly number: number };
  readonly frameOfReference: string;
  readonly rows: number;
  readonly columns: number;
  /** Hounsfield units plus 1024, row by row. */
  readonly pixels: Uint16Array;
  /** Millimetres from row to row and from column to column. */
  readonly spacingMm: readonly [number, number];
  readonly thicknessMm: number;
  /** Centre of the first pixel, and unit vectors along a row and down a column: x left +, y back +, z head +. */
  readonly originMm: Vector;
  readonly along: Vector;
  readonly down: Vector;
  readonly laterality: 'R' | 'L' | '';
  readonly window: { readonly centre: number; readonly width: number };
  readonly comment?: string;
}

/** Decimal string of at most 16 characters. */
const ds = (value: number): string => {
  const text = String(Number(value.toFixed(6)));
  return text.length <= 16 ? text : String(Number(value.toPrecision(9)));
};

const patientElements = ({ patient, study, series, instance }: CtSlice): Attributes => ({
  StudyDate: study.date,
  SeriesDate: study.date,
  AcquisitionDate: study.date,
  ContentDate: study.date,
  StudyTime: study.time,
  SeriesTime: study.time,
  AcquisitionTime: study.time,
  ContentTime: study.time,
  AccessionNumber: '',
  ReferringPhysicianName: '',
  StudyDescription: study.description,
  SeriesDescription: series.description,
  PatientName: patient.name,
  PatientID: patient.id,
  PatientBirthDate: patient.birthDate,
  PatientSex: patient.sex,
  StudyInstanceUID: study.uid,
  SeriesInstanceUID: series.uid,
  StudyID: study.id,
  SeriesNumber: series.number,
  AcquisitionNumber: 1,
  InstanceNumber: instance.number,
});

/** All elements of a CT slice. Exported so that a caller may change some before writing. */
export function ctSliceElements(slice: CtSlice): Attributes {
  return {
    SpecificCharacterSet: 'ISO_IR 192',
    ImageType: ['ORIGINAL', 'PRIMARY', 'AXIAL'],
    SOPClassUID: CT_IMAGE,
    SOPInstanceUID: slice.instance.uid,
    Modality: 'CT',
    Manufacturer: 'Gapline phantom (no device)',
    InstitutionName: 'Invented Hospital',
    ...patientElements(slice),
    BodyPartExamined: 'KNEE',
    KVP: '120',
    SliceThickness: ds(slice.thicknessMm),
    PatientPosition: 'HFS',
    FrameOfReferenceUID: slice.frameOfReference,
    PositionReferenceIndicator: '',
    ...(slice.laterality === '' ? {} : { Laterality: slice.laterality }),
    ImagePositionPatient: slice.originMm.map(ds),
    ImageOrientationPatient: [...slice.along, ...slice.down].map(ds),
    PixelSpacing: slice.spacingMm.map(ds),
    ...(slice.comment ? { ImageComments: slice.comment } : {}),
    SamplesPerPixel: 1,
    PhotometricInterpretation: 'MONOCHROME2',
    Rows: slice.rows,
    Columns: slice.columns,
    BitsAllocated: 16,
    BitsStored: 16,
    HighBit: 15,
    PixelRepresentation: 0,
    RescaleIntercept: '-1024',
    RescaleSlope: '1',
    RescaleType: 'HU',
    WindowCenter: ds(slice.window.centre),
    WindowWidth: ds(slice.window.width),
  };
}

/** A CT slice as a DICOM file: CT Image Storage. Same input, same bytes. */
export const writeCtSlice = (slice: CtSlice): Uint8Array => writeRawDicom(ctSliceElements(slice), slice.pixels);
