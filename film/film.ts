import type { FilmScaleFacts } from '@gapline/core/calibration/film-scale-facts.ts';
import type { ColumnDirection, View } from '@gapline/core/landmarks/view.ts';
import type { LateralityFacts } from './side.ts';
import type { SlicePlace } from './stack/slice-place.ts';

/** Stored values, bits beyond Bits Stored removed and signs extended; may share the memory of the file. */
export type FilmPixels = Uint8Array | Int8Array | Uint16Array | Int16Array;

/** One film as its file states it, nothing decided: pixels as stored, the grey pipeline beside them, no identity. */
export interface Film {
  readonly rows: number;
  readonly columns: number;
  /** Frames in the file; `pixels` holds the first. */
  readonly frames: number;
  /** Row by row, `rows * columns` values. */
  readonly pixels: FilmPixels;
  readonly bitsStored: number;
  readonly grey: GreyPipeline;
  readonly scaleFacts: FilmScaleFacts;
  readonly laterality: LateralityFacts;
  readonly view: View;
  /** Body Part Examined, or the code of Anatomic Region, as written. */
  readonly bodyPart?: string;
  /** Day of acquisition, `YYYY-MM-DD`. */
  readonly takenOn?: string;
  readonly columnsTowards?: ColumnDirection;
  /** `DX`, `CR`, ...; `PNG` or `JPEG` for plain pictures. */
  readonly modality: string;
  readonly sopClass?: string;
  /** Words on the picture itself may tell who the patient is. */
  readonly burnedIn: 'yes' | 'no' | 'not-stated';
  readonly uids: FilmUids;
  /** Where a CT or MR slice lies in the patient; absent on other films, and where the file does not say. */
  readonly slice?: SlicePlace;
}

export interface FilmUids {
  readonly study?: string;
  readonly series?: string;
  readonly instance?: string;
}

/** Steps from stored values to what is shown (PS3.3 C.11): modality, then VOI, then inversion. */
export interface GreyPipeline {
  readonly modality: ModalityTransform;
  readonly windows: readonly Window[];
  readonly windowFunction: 'LINEAR' | 'LINEAR_EXACT' | 'SIGMOID';
  readonly voiLut?: LookUpTable;
  /** True when low values are bright: MONOCHROME1, or a presentation shape of INVERSE. */
  readonly inverted: boolean;
}

export type ModalityTransform =
  | { readonly kind: 'rescale'; readonly slope: number; readonly intercept: number }
  | { readonly kind: 'lut'; readonly lut: LookUpTable };

export interface Window {
  readonly center: number;
  readonly width: number;
  readonly explanation?: string;
}

/** Inputs below `first` take the first entry, inputs beyond the end the last. */
export interface LookUpTable {
  readonly first: number;
  readonly bits: number;
  readonly entries: Uint16Array;
}

/** Who the patient is, kept apart from the film; every field may be absent. */
export interface Identity {
  readonly id?: string;
  readonly name?: string;
  readonly sex?: 'female' | 'male';
  readonly birthDate?: string;
}
