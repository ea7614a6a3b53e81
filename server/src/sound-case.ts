import type { CaseFile } from '@gapline/core/plan/case.ts';
import { caseFaults } from '@gapline/exchange/case/read-case.ts';
import type { ErrorCode } from './errors.ts';
import { refusalFor } from './errors.ts';
import type { Workbench } from './workbench.ts';

/** Nothing is stored that the schema of case files would refuse, so that every stored case can be written out again. */
export function assertSound(file: CaseFile, otherwise: ErrorCode): void {
  const [fault] = caseFaults(JSON.stringify(file), 'case');
  if (fault) throw refusalFor(fault, otherwise);
}

/** A case refers only to films whose bytes are in the data folder. */
export async function assertFilmsImported(file: CaseFile, bench: Workbench): Promise<void> {
  for (const film of file.films) {
    const slices = film.slices?.each.map((s) => s.sha256) ?? [];
    if (await allStored([film.sha256, ...slices], bench)) continue;
    throw refusalFor(
      {
        code: 'film-needs-import',
        message: `The film ${film.file} has not been imported.`,
        field: `film ${film.id}`,
      },
      'film-needs-import',
    );
  }
}

async function allStored(hashes: readonly (string | undefined)[], bench: Workbench): Promise<boolean> {
  for (const sha256 of new Set(hashes))
    if (sha256 === undefined || !(await bench.store.films.read(sha256))) return false;
  return true;
}
