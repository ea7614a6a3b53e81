import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import type { Film, Identity } from '../film.ts';
import { statedSide } from '../side.ts';
import type { SlicePlace } from './slice-place.ts';

/** One imported CT or MR slice, with what decides about its stack. */
export interface SliceFile {
  /** The slice as a film of its own. */
  readonly film: CaseFilm & { readonly sha256: string };
  readonly pixelsSha256: string;
  readonly place?: SlicePlace;
  readonly series?: string;
  /** Who the file says it is, as one text for comparison; absent where it names nobody. Never stored. */
  readonly patient?: string;
  /** Side that the file states; absent where it states none. */
  readonly side?: Side | 'both';
}

/** A film that was read as a slice; null for any other film. */
export function sliceFile(
  film: Film,
  identity: Identity,
  entry: Pick<SliceFile, 'film' | 'pixelsSha256'>,
): SliceFile | null {
  if (!film.scaleFacts.volumetric) return null;
  const patient = [identity.id, identity.name, identity.birthDate].filter((part) => part !== undefined).join(' | ');
  const stated = statedSide(film.laterality);
  return {
    ...entry,
    ...(film.slice ? { place: film.slice } : {}),
    ...(film.uids.series === undefined ? {} : { series: film.uids.series }),
    ...(patient === '' ? {} : { patient }),
    ...(stated.kind === 'agree' ? { side: stated.side } : {}),
  };
}
