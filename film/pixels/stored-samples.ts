import type { PixelLayout } from './layout.ts';

/** Samples as they come out of the file or a decoder: containers of 8 or 16 bits, nothing masked. */
export interface Samples {
  readonly data: Uint8Array | Uint16Array;
  /** Colour planes one after the other. */
  readonly planar: boolean;
  /** Decoders turn colour into RGB themselves; raw data keeps its photometric interpretation. */
  readonly photometric: PixelLayout['photometric'];
  /** Position of the lowest stored bit; 0 from decoders. */
  readonly shift: number;
}
