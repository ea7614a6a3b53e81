import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useEffect, useLayoutEffect, useMemo, useRef, useState, useSyncExternalStore } from 'react';
import { useDesk, useDeskState, useSession } from '../case/desk.tsx';
import type { GreyWindow } from '../film/grey.ts';
import { fit, resized, type Viewport } from '../film/viewport.ts';
import { OnStack } from './OnStack.tsx';
import { namedWindow } from './slice-windows.ts';
import type { StackFilm } from './stack-film.ts';
import { openStack } from './stack-shelf.ts';
import { shownUpright } from './upright.ts';

/** A CT stack: one slice at a time, with everything that is marked on it. Slices are shown as they come. */
export function StackView({ film }: { readonly film: StackFilm }) {
  const caseId = useSession((s) => s.shown.id);
  const stack = useMemo(() => openStack(caseId, film), [caseId, film]);
  useSyncExternalStore(stack.subscribe, stack.version);
  const area = useRef<HTMLDivElement>(null);
  const [view, setView] = useState<Viewport | null>(null);
  const [grey, setGrey] = useState<GreyWindow>(() => namedWindow('bone', 0));
  const [slice, setSlice] = useSliceShown(film);
  const size = useMemo(() => sizeOf(film), [film]);
  const upright = useMemo(() => shownUpright(film.slices), [film.slices]);

  useEffect(() => stack.lookAt(slice), [stack, slice]);
  useLayoutEffect(() => {
    const element = area.current;
    if (!element) return;
    const observer = new ResizeObserver(() => {
      const box = { width: element.clientWidth, height: element.clientHeight };
      if (box.width > 0 && box.height > 0)
        setView((v) => (v ? resized(v, box, size) : { ...fit(box, size, upright.mirrored), turnDeg: upright.turnDeg }));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [size, upright]);

  return (
    <div className="film" ref={area}>
      {view && (
        <OnStack
          film={film}
          stack={stack}
          slice={slice}
          setSlice={setSlice}
          size={size}
          view={view}
          setView={setView}
          grey={grey}
          setGrey={setGrey}
          startGrey={namedWindow('bone', stack.most())}
          range={Math.max(stack.most(), 4096)}
        />
      )}
    </div>
  );
}

function sizeOf({ scaleFacts: { rows, columns, pixelSpacing } }: CaseFilm) {
  return { rows, columns, aspect: pixelSpacing ? pixelSpacing[0] / pixelSpacing[1] : 1 };
}

/** Slice last shown of each stack, so that going to another film and back loses no place. */
const lastShown = new Map<string, number>();

/** The slice that is shown; a mark that is selected elsewhere, as in the list, brings its own slice. */
function useSliceShown(film: StackFilm): readonly [number, (next: number) => void] {
  const { session } = useDesk();
  const count = film.slices.each.length;
  const [slice, show] = useState(() => Math.min(lastShown.get(film.id) ?? Math.floor(count / 2), count - 1));
  const set = (next: number): void => {
    lastShown.set(film.id, next);
    show(next);
  };
  const selected = useDeskState((s) => s.selected);
  useEffect(() => {
    if (!selected) return;
    const { marks } = session.store.getState().shown;
    const mark = marks.find((m) => m.film === film.id && `${m.landmark}|${m.side}|${m.film}` === selected.key);
    if (mark?.slice === undefined) return;
    lastShown.set(film.id, mark.slice);
    show(mark.slice);
  }, [selected, session, film.id]);
  return [slice, set];
}
