import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { toGrey8, toPicture } from '@gapline/film/picture.ts';
import { readFilm } from '@gapline/film/read-film.ts';
import { plainFilmElements, writeRawDicom } from '@gapline/film/write/dx.ts';
import { uidOf } from '@gapline/film/write/uid.ts';
import type { Bench } from './bench-types.ts';
import { median } from './timing/median.ts';

const [ROWS, COLUMNS] = [7000, 3000];
const RUNS = 5;

/** A film of the size of a long-leg film with a smooth picture and some noise. */
function longLeg(): Uint8Array {
  const pixels = Uint16Array.from(
    { length: ROWS * COLUMNS },
    (_, i) => ((i % COLUMNS) * 4 + ((i * 2654435761) >>> 22)) & 0x3fff,
  );
  return writeRawDicom(
    plainFilmElements({
      kind: 'dx',
      pixels,
      rows: ROWS,
      columns: COLUMNS,
      bitsStored: 14,
      monochrome1: false,
      window: { centre: 6000, width: 12_000 },
      patient: { name: 'Bench', id: 'B', sex: 'F', birthDate: '19500102' },
      study: { uid: uidOf('b/study'), date: '20250310', time: '090000', id: 'B', description: 'Bench' },
      series: { uid: uidOf('b/series'), number: 1, description: 'AP' },
      instance: { uid: uidOf('b/image'), number: 1 },
      laterality: 'B',
      view: { position: 'AP', code: '399348003', meaning: 'antero-posterior' },
      region: { code: '72696002', meaning: 'Knee' },
      bodyPart: 'KNEE',
      orientation: ['L', 'F'],
      derived: null,
      spacing: { detectorMm: 0.143, sourceToDetectorMm: 3000, sourceToPatientMm: 2800 },
      exposure: { kvp: 80, mas: 20 },
    }),
    pixels,
  );
}

function timed(run: () => void): number {
  const times = Array.from({ length: RUNS }, () => {
    const started = performance.now();
    run();
    return performance.now() - started;
  });
  return median(times);
}

export const benches: readonly Bench[] = [
  {
    name: 'Read a film of 3000 x 7000 from disk, 16 bit, and window it to 8 bit',
    target: 'no slower than dcmj2pnm of dcmtk (ratio <= 1)',
    async run() {
      const dir = mkdtempSync(join(tmpdir(), 'gapline-bench-'));
      try {
        const [path, out] = [join(dir, 'film.dcm'), join(dir, 'film.pgm')];
        writeFileSync(path, longLeg());
        const ours = timed(() => {
          const film = readFilm(readFileSync(path), 'film.dcm');
          if (!film.ok) throw new Error(film.reason.message);
          writeFileSync(join(dir, 'ours.raw'), toGrey8(toPicture(film.value)));
        });
        const theirs = timed(() => {
          const done = spawnSync('dcmj2pnm', ['+Wi', '1', '+op', path, out]);
          if (done.status !== 0) throw new Error('dcmj2pnm is not installed, or failed');
        });
        return {
          ours,
          theirs,
          unit: 'ms',
          ratio: ours / theirs,
          note: `median of ${RUNS}; theirs includes the start of its process, ours runs in this one`,
        };
      } finally {
        rmSync(dir, { recursive: true, force: true });
      }
    },
  },
];
