/** Raised with every change of the figures below. */
export const ROTATION_TABLE_VERSION = '1.0';

/** Mean and spread among people of a native rotation, deg, internal negative. */
interface NativeMean {
  readonly meanDeg: number;
  readonly sdDeg: number;
  readonly source: string;
}

/** Posterior condylar line of the native femur against the surgical epicondylar axis, 75 femora (Berger 1993). */
export const NATIVE_FEMUR: Readonly<Record<'female' | 'male', NativeMean>> = {
  female: { meanDeg: -0.3, sdDeg: 1.2, source: 'Berger 1993' },
  male: { meanDeg: -3.5, sdDeg: 1.2, source: 'Berger 1993' },
};

/** Other series find about this in both sexes (2.9 to 3.1 on MRI of 80, 104 and 200 knees; Servien 2008). */
export const NATIVE_FEMUR_ELSEWHERE_DEG = -3;

/** Component axis of a normal tibia against the tip of the tubercle (from memory; Berger & Crossett 1998). */
export const NATIVE_TIBIA: NativeMean = { meanDeg: -18, sdDeg: 2.6, source: 'Berger & Crossett 1998' };

/** What was found with how much combined excess of internal rotation, deg (Berger & Crossett 1998, from memory). The ranges overlap. */
export const COMBINED_BANDS: readonly { readonly from: number; readonly to: number; readonly found: string }[] = [
  { from: 1, to: 4, found: 'lateral tracking or tilt of the patella' },
  { from: 3, to: 8, found: 'subluxation of the patella' },
  { from: 7, to: 17, found: 'dislocation or late failure of the patella' },
];

export const BANDS_SOURCE = 'Berger & Crossett 1998';
export const NO_CUT_OFF =
  'No cut-off that calls for revision is known: a review of 25 studies found none (Valkering 2015).';
