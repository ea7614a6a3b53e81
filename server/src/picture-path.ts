import { join } from 'node:path';

/** Where a film's decoded picture lies. It can be made again at any time; another way of making it gets another folder. */
export const picturePath = ({ folder, sha256 }: { readonly folder: string; readonly sha256: string }): string =>
  join(folder, 'pictures-1', sha256.slice(0, 2), sha256);
