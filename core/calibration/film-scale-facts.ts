/** What a film's file says about scale, as read, with nothing decided. Spacings are `[row, column]` in mm. */
export interface FilmScaleFacts {
  /** CT or MR slice with patient-plane spacing (not a localizer). */
  readonly volumetric: boolean;
  readonly rows: number;
  readonly columns: number;
  readonly pixelSpacing?: readonly [number, number];
  readonly calibrationType?: 'GEOMETRY' | 'FIDUCIAL';
  readonly calibrationDescription?: string;
  readonly imagerPixelSpacing?: readonly [number, number];
  readonly nominalScannedPixelSpacing?: readonly [number, number];
  /** Estimated Radiographic Magnification Factor (0018,1114). */
  readonly magnificationFactor?: number;
  readonly sourceToDetectorMm?: number;
  readonly sourceToPatientMm?: number;
  /** Pixel Aspect Ratio, height over width. */
  readonly pixelAspect?: number;
  /** Field of View Dimension(s) (0018,1149), mm. */
  readonly fieldOfViewMm?: readonly number[];
  readonly derived: boolean;
  /** Presentation Pixel Spacing (0070,0101) of a presentation state that goes with the film. */
  readonly presentationPixelSpacing?: readonly [number, number];
  /** Mosaic of several exposures joined into one picture. */
  readonly stitched?: boolean;
}
