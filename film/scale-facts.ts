import type { FilmScaleFacts } from '@gapline/core/calibration/film-scale-facts.ts';
import type { DataSet } from './dicom/data-set.ts';
import { TAG } from './dicom/tags.ts';
import { decimal, decimals, text, texts } from './dicom/values.ts';
import { spokenText } from './spoken-text.ts';

/** Slices whose Pixel Spacing lies in the patient; a localizer is a projection. */
const VOLUMETRIC_CLASSES = ['1.2.840.10008.5.1.4.1.1.2', '1.2.840.10008.5.1.4.1.1.4'];

/** What the file says about scale, as read (`core/calibration` decides). A value that is no number is left out. */
export function scaleFacts(set: DataSet, rows: number, columns: number): FilmScaleFacts {
  const imageType = texts(set, TAG.ImageType);
  const type = text(set, TAG.PixelSpacingCalibrationType);
  const description = spokenText(set, TAG.PixelSpacingCalibrationDescription);
  const aspect = decimals(set, TAG.PixelAspectRatio);
  const volumetric = VOLUMETRIC_CLASSES.includes(text(set, TAG.SOPClassUID) ?? '') && !imageType.includes('LOCALIZER');
  return {
    volumetric,
    rows,
    columns,
    ...some('pixelSpacing', pair(set, TAG.PixelSpacing)),
    ...(type === 'GEOMETRY' || type === 'FIDUCIAL' ? { calibrationType: type } : {}),
    ...some('calibrationDescription', description),
    ...some('imagerPixelSpacing', pair(set, TAG.ImagerPixelSpacing)),
    ...some('nominalScannedPixelSpacing', pair(set, TAG.NominalScannedPixelSpacing)),
    ...some('magnificationFactor', decimal(set, TAG.EstimatedRadiographicMagnificationFactor)),
    ...some('sourceToDetectorMm', decimal(set, TAG.DistanceSourceToDetector)),
    ...some('sourceToPatientMm', decimal(set, TAG.DistanceSourceToPatient)),
    ...some('pixelAspect', aspect?.[0] && aspect[1] ? aspect[0] / aspect[1] : undefined),
    ...some('fieldOfViewMm', decimals(set, TAG.FieldOfViewDimensions)),
    derived: imageType[0] === 'DERIVED',
    // PS3.3 C.8.11.3.1.3 has no term of its own for joined exposures; makers write one of these words.
    ...(imageType.some((word) => /STITCH|MOSAIC|COMPOS/i.test(word)) ? { stitched: true } : {}),
  };
}

const pair = (set: DataSet, tag: number): readonly [number, number] | undefined => {
  const values = decimals(set, tag);
  return values?.length === 2 ? (values as unknown as readonly [number, number]) : undefined;
};

const some = <K extends string, V>(key: K, value: V | undefined): { [P in K]?: V } =>
  (value === undefined ? {} : { [key]: value }) as { [P in K]?: V };
