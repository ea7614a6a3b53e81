import { copyFile, mkdir } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const sources = join(dirname(fileURLToPath(import.meta.url)), 'src');

export interface PagesBuild {
  /** Folder that gets the pages; made where absent. */
  readonly outDir: string;
  readonly minify: boolean;
}

/**
 * Builds the pages into a folder, ready to be served as they are: `index.html`, `main.js`, `style.css`,
 * `pyramid.worker.js`, `proposals.worker.js`, `label.worker.js` with the binary of its barcode reader, `forecast.worker.js`, `favicon.svg`. Scripts and styles are files of their own, nothing stands inline, so a
 * content security policy of `default-src 'self'` holds. Same sources, same bytes.
 */
export async function buildPages({ outDir, minify }: PagesBuild): Promise<void> {
  await mkdir(outDir, { recursive: true });
  await build({
    entryPoints: {
      main: join(sources, 'main.tsx'),
      style: join(sources, 'style', 'style.css'),
      'pyramid.worker': join(sources, 'film', 'pyramid.worker.ts'),
      'proposals.worker': join(sources, 'marking', 'proposals.worker.ts'),
      'label.worker': join(sources, 'work-up', 'label.worker.ts'),
      'forecast.worker': join(sources, 'surprise', 'forecast.worker.ts'),
    },
    outdir: outDir,
    bundle: true,
    format: 'esm',
    target: 'es2022',
    jsx: 'automatic',
    minify,
    sourcemap: !minify,
    legalComments: minify ? 'none' : 'inline',
    define: { 'process.env.NODE_ENV': minify ? '"production"' : '"development"' },
    logLevel: 'warning',
  });
  const reader = fileURLToPath(import.meta.resolve('zxing-wasm/reader/zxing_reader.wasm'));
  await copyFile(reader, join(outDir, 'zxing_reader.wasm'));
  for (const name of ['index.html', 'favicon.svg']) await copyFile(join(sources, name), join(outDir, name));
}
