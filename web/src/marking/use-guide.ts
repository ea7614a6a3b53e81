import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useEffect } from 'react';
import { useDesk, useDeskState, useSession } from '../case/desk.tsx';
import { type AskedLandmark, nextToMark } from './guided.ts';

/** What is asked for now on a film; while guided, each landmark placed brings the next one to hand by itself. */
export function useGuide(film: CaseFilm, side: Side): AskedLandmark | null {
  const { state } = useDesk();
  const file = useSession((s) => s.shown);
  const { later, selected, guided, placing, tool } = useDeskState((s) => s);
  const [landmark, onSide, onFilm] = selected?.key.split('|') ?? [];
  const after = onSide === side && onFilm === film.id ? (landmark as AskedLandmark['id']) : undefined;
  const next = nextToMark(file, { film, side, later, after });
  const free = guided && placing === null && !tool;
  const id = next?.id;
  useEffect(() => {
    if (!free) return;
    if (id === undefined) state.setState({ guided: false });
    else state.setState({ placing: { landmark: id, side, film: film.id } });
  }, [free, id, side, film.id, state]);
  return next;
}
