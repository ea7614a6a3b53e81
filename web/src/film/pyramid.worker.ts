import { type Level, pyramid } from './pyramid.ts';

/** What the page asks for: the pixels at an address of our own server. */
export interface PyramidRequest {
  readonly address: string;
  readonly columns: number;
  readonly rows: number;
}

export type PyramidAnswer =
  | {
      readonly ok: true;
      readonly levels: readonly Level[];
      /** When the last byte was in memory, ms since 1970. */
      readonly bytesAt: number;
    }
  | { readonly ok: false; readonly message: string };

const littleEndian = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;

async function load({ address, columns, rows }: PyramidRequest): Promise<PyramidAnswer> {
  const answer = await fetch(address);
  if (!answer.ok) return { ok: false, message: `The pixels of this film could not be read (${answer.status}).` };
  const bytes = await answer.arrayBuffer();
  const bytesAt = performance.timeOrigin + performance.now();
  if (bytes.byteLength !== 2 * columns * rows) {
    return { ok: false, message: 'The film arrived incomplete. Reload the page.' };
  }
  if (!littleEndian) return { ok: false, message: 'This kind of processor is not supported by the film viewer.' };
  return { ok: true, bytesAt, levels: pyramid({ width: columns, height: rows, values: new Uint16Array(bytes) }) };
}

self.addEventListener('message', (event: MessageEvent<PyramidRequest>) => {
  void load(event.data)
    .catch((): PyramidAnswer => ({ ok: false, message: 'The film did not arrive: no answer from the workbench.' }))
    .then((answer) => {
      const transfer = answer.ok ? answer.levels.map((level) => level.values.buffer) : [];
      self.postMessage(answer, { transfer });
    });
});
