import type { Page } from './page.ts';

/** The whole PDF once the page is ended. */
export function collected(page: Page): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    page.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    page.on('end', () => resolve(new Uint8Array(Buffer.concat(chunks))));
    page.on('error', reject);
  });
}
