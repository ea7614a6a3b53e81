import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useCallback, useEffect, useRef } from 'react';
import { useDesk, useDeskState, useSession } from '../case/desk.tsx';
import { ANCHORS, type Anchor, anchorOn } from './anchor.ts';
import type { Lead } from './lead.ts';
import { follow, type Held, poseOf } from './link.ts';
import type { Pane } from './panes.ts';
import { useMmPerColumn } from './use-film-size.ts';
import { toFilm, type Viewport } from './viewport.ts';

type SetView = (next: (v: Viewport | null) => Viewport | null) => void;

interface Linked {
  /** Sets the view and tells the films that are linked. */
  readonly lead: (next: Viewport) => void;
  /** Why this film does not move with the others; null where it does, or where nothing is linked. */
  readonly apart: string | null;
}

/** Keeps the view of one film and that of the films linked with it together. */
export function useLinkedView(pane: Pane, view: Viewport | null, setView: SetView): Linked {
  const { state } = useDesk();
  const { link, anchor: anchorId, lead: channel } = useDeskState((s) => s.viewing);
  const mmPerPx = useMmPerColumn(pane.film.id);
  const marked = useSession((s) => {
    const at = anchorOn(anchorId, s.shown.marks, { film: pane.film.id, side: pane.side });
    return at ? `${at.x} ${at.y}` : null;
  });
  // Films linked as they lie are held by what was in the middle of each when they were linked.
  const lying = useRef<{ readonly x: number; readonly y: number } | null>(null);
  const newest = useRef(view);
  newest.current = view;

  const held = useCallback((): Held | null => {
    if (mmPerPx === null) return null;
    if (anchorId !== 'as-they-lie') {
      const [x = Number.NaN, y = Number.NaN] = (marked ?? '').split(' ').map(Number);
      return marked === null ? null : { at: { x, y }, mmPerPx };
    }
    const v = newest.current;
    lying.current ??= v && toFilm(v, { x: v.width / 2, y: v.height / 2 });
    return lying.current && { at: lying.current, mmPerPx };
  }, [mmPerPx, anchorId, marked]);

  const tell = useCallback(
    (v: Viewport) => {
      const own = link === 'none' ? null : held();
      if (own) channel.say({ pane: pane.key, view: pane.film.view, takenOn: pane.film.takenOn, pose: poseOf(v, own) });
    },
    [link, held, channel, pane],
  );

  const hear = useCallback(
    (led: Lead) => {
      const own = held();
      if (!own || led.pane === pane.key || !isLinked(link, led, pane.film)) return;
      // From the newest view, whose area may just have got another size.
      setView((v) => v && follow(v, led.pose, { held: own, sideways: led.view === pane.film.view }));
    },
    [held, link, pane, setView],
  );

  useEffect(() => channel.listen(hear), [channel, hear]);

  // Linked anew, or the areas got another size: every film takes up the pose of the first one; a film that comes later,
  // that of the last that moved.
  const area = view && `${view.width} ${view.height}`;
  const linkNow = `${link} ${anchorId}`;
  const linkedAs = useRef(linkNow);
  useEffect(() => {
    if (linkedAs.current !== linkNow) lying.current = null;
    linkedAs.current = linkNow;
    const v = newest.current;
    if (link === 'none' || area === null || !v) return;
    const last = channel.last();
    if (pane.first) tell(v);
    else if (last && anchorId !== 'as-they-lie') hear(last);
  }, [link, anchorId, linkNow, area, pane.first, tell, hear, channel]);

  const lead = (next: Viewport): void => {
    newest.current = next;
    setView(() => next);
    if (state.getState().viewing.link !== 'none') tell(next);
  };
  const anchor = ANCHORS.find((a) => a.id === anchorId);
  return { lead, apart: link === 'none' ? null : apartBecause(mmPerPx, marked, anchor) };
}

function apartBecause(mmPerPx: number | null, marked: string | null, anchor: Anchor | undefined): string | null {
  if (mmPerPx === null) return 'Not linked: no scale';
  if (marked === null && anchor && anchor.of.length > 0)
    return `Not linked: ${anchor.label.toLowerCase()} not marked here`;
  return null;
}

const isLinked = (link: 'none' | 'view' | 'date', lead: Lead, film: CaseFilm): boolean =>
  link === 'view'
    ? lead.view === film.view
    : link === 'date' && lead.takenOn !== undefined && lead.takenOn === film.takenOn;
