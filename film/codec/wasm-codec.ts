import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** What the packaged decoders have in common. Buffers are views into their own memory: copy, then delete. */
export interface WasmDecoder {
  getEncodedBuffer(length: number): Uint8Array;
  getDecodedBuffer(): Uint8Array;
  decode(): void;
  delete(): void;
  getFrameInfo(): FrameInfo;
  getInterleaveMode?(): number;
}

export interface FrameInfo {
  readonly width: number;
  readonly height: number;
  readonly bitsPerSample: number;
  readonly componentCount: number;
  readonly isSigned?: boolean;
}

type WasmModule = Record<string, new () => WasmDecoder>;

/** The little of WebAssembly that is used, since the language library leaves it to the DOM. */
interface WebAssemblyApi {
  readonly Module: new (binary: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: object };
}

const { WebAssembly } = globalThis as unknown as { readonly WebAssembly: WebAssemblyApi };

interface Startup {
  instantiateWasm(imports: object, done: (instance: object) => void): object;
  print(line: string): void;
  printErr(line: string): void;
}

export interface WasmCodec {
  /** Package entry of the loader and of its binary. */
  readonly loader: string;
  readonly binary: string;
  /** Name of the decoder class. */
  readonly decoder: string;
}

const require = createRequire(import.meta.url);
const compiled = new Map<string, object>();
const running = new Map<string, WasmModule>();

/**
 * A fresh decoder of the codec. Started at first need, and at once instead of by promise, so that
 * reading a film stays one plain call.
 */
export function startDecoder(codec: WasmCodec): WasmDecoder {
  const module = running.get(codec.binary) ?? start(codec);
  running.set(codec.binary, module);
  const Decoder = module[codec.decoder];
  if (!Decoder) throw new Error(`${codec.loader} has no ${codec.decoder}`);
  return new Decoder();
}

/** Forgets the running instance: after a failure its memory is not to be trusted. */
export const discardDecoder = (codec: WasmCodec): boolean => running.delete(codec.binary);

function start(codec: WasmCodec): WasmModule {
  const binary = compiled.get(codec.binary) ?? new WebAssembly.Module(readFileSync(require.resolve(codec.binary)));
  compiled.set(codec.binary, binary);
  const load = require(codec.loader) as (module: Startup) => PromiseLike<unknown>;
  const silent = () => {};
  const module: Startup = {
    print: silent,
    printErr: silent,
    instantiateWasm(imports, done) {
      const instance = new WebAssembly.Instance(binary, imports);
      done(instance);
      return instance.exports;
    },
  };
  load(module);
  return module as unknown as WasmModule;
}
