import { useEffect, useMemo, useState } from 'react';
import type { GreyWindow } from './grey.ts';

type Stated = Pick<GreyWindow, 'low' | 'high'> | undefined;

/** The grey window of a film: the file's own until somebody sets another. Null while the film is not there. */
export function useGrey(
  stated: Stated,
): readonly [grey: GreyWindow | null, set: (next: GreyWindow) => void, start: GreyWindow | null] {
  const [grey, setGrey] = useState<GreyWindow | null>(null);
  const start = useMemo(() => (stated ? { ...stated, inverted: false } : null), [stated]);
  useEffect(() => {
    if (start) setGrey((g) => g ?? start);
  }, [start]);
  return [grey, setGrey, start];
}
