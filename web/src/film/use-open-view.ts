import { type Dispatch, type RefObject, type SetStateAction, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { type FilmSize, fit, resized, type Viewport } from './viewport.ts';

interface Open {
  readonly size: FilmSize;
  readonly mirrored: boolean;
  /** What is in sight at the start, given the whole film. */
  readonly begin: (whole: Viewport) => Viewport;
}

/** The view of a film in an area of the page: begun when the area has its size, kept when that changes. */
export function useOpenView({ size, mirrored, begin }: Open): {
  readonly area: RefObject<HTMLDivElement | null>;
  readonly view: Viewport | null;
  readonly setView: Dispatch<SetStateAction<Viewport | null>>;
} {
  const area = useRef<HTMLDivElement>(null);
  const [looked, setView] = useState<Viewport | null>(null);
  useLayoutEffect(() => {
    const element = area.current;
    if (!element) return;
    const observer = new ResizeObserver(() => {
      const box = { width: element.clientWidth, height: element.clientHeight };
      if (box.width > 0 && box.height > 0)
        setView((v) => (v ? resized(v, box, size) : begin(fit(box, size, mirrored))));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [size, mirrored, begin]);
  // One and the same object while nothing of it changes: the film is painted anew for another one.
  const view = useMemo(() => looked && { ...looked, mirrored, aspect: size.aspect }, [looked, mirrored, size.aspect]);
  return { area, view, setView };
}
