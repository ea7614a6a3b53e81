import { type RefObject, useLayoutEffect, useState } from 'react';

/** Width of an element on the screen, followed while it changes; the first guess stands until it is known. */
export function useWidth(element: RefObject<HTMLElement | null>, guess: number): number {
  const [width, setWidth] = useState(guess);
  useLayoutEffect(() => {
    const box = element.current;
    if (!box) return;
    const observer = new ResizeObserver(() => {
      if (box.clientWidth > 0) setWidth(box.clientWidth);
    });
    observer.observe(box);
    return () => observer.disconnect();
  }, [element]);
  return width;
}
