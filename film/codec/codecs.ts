import type { WasmCodec } from './wasm-codec.ts';

export const JPEG_LS: WasmCodec = {
  loader: '@cornerstonejs/codec-charls/decodewasmjs',
  binary: '@cornerstonejs/codec-charls/decodewasm',
  decoder: 'JpegLSDecoder',
};

export const JPEG_2000: WasmCodec = {
  loader: '@cornerstonejs/codec-openjpeg/decodewasmjs',
  binary: '@cornerstonejs/codec-openjpeg/decodewasm',
  decoder: 'J2KDecoder',
};

export const HTJ2K: WasmCodec = {
  loader: '@cornerstonejs/codec-openjph/wasmjs',
  binary: '@cornerstonejs/codec-openjph/wasm',
  decoder: 'HTJ2KDecoder',
};

export const JPEG_BASELINE: WasmCodec = {
  loader: '@cornerstonejs/codec-libjpeg-turbo-8bit/decodewasmjs',
  binary: '@cornerstonejs/codec-libjpeg-turbo-8bit/decodewasm',
  decoder: 'JPEGDecoder',
};
