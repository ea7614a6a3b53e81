import { join } from 'node:path';

interface FilmOnDisk {
  readonly folder: string;
  readonly sha256: string;
}

/** Where a film's decoded picture lies. It can be made again at any time; another way of making it gets another folder. */
export const picturePath = ({ folder, sha256 }: FilmOnDisk): string =>
  join(folder, 'pictures-1', sha256.slice(0, 2), sha256);

/** Where the values of a CT slice lie on the scale that its stack shares; made again at any time, like the pictures. */
export const slicePath = ({ folder, sha256 }: FilmOnDisk): string =>
  join(folder, 'slices-1', sha256.slice(0, 2), sha256);
