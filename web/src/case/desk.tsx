import type { Construct } from '@gapline/core/gaps/construct.ts';
import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { createContext, useContext } from 'react';
import { useStore } from 'zustand';
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { ToolInHand } from '../film/tool-in-hand.ts';
import { type Viewing, viewingAtStart } from '../film/viewing.ts';
import type { MarkPoint } from '../gestures/pointer.ts';
import type { Planning, PlanningState } from './planning.ts';
import type { Session, SessionState } from './session.ts';

/** What lies on the desk beside the case: which films are shown, what is selected. Never saved. */
export interface DeskState {
  /** One film, or several side by side. */
  readonly films: readonly string[];
  /** How they are looked at beside one another. */
  readonly viewing: Viewing;
  readonly selected: MarkPoint | null;
  /** Landmark that waits to be placed on the shown film. */
  readonly placing: { readonly landmark: LandmarkId; readonly side: Side; readonly film: string } | null;
  /** What else is in hand over a film: a defect being drawn, a canal being traced. Absent = nothing. */
  readonly tool?: ToolInHand | null;
  /** Put off for now, by the name of the mark; what is skipped for good is in the case. */
  readonly later: ReadonlySet<string>;
  /** Each landmark placed is followed by the next one that is asked for. */
  readonly guided: boolean;
  /** A press goes to the nearest edge. */
  readonly snaps: boolean;
  readonly layers: {
    readonly present: boolean;
    readonly plan: boolean;
    readonly marks: boolean;
    readonly names: boolean;
  };
  /** What a row pointed at in a table stands out on the film. */
  readonly pointedAt: { readonly layer: string | null; readonly landmarks: readonly LandmarkId[] } | null;
  /** Which of the constructs is drawn: 0 = the best. */
  readonly construct: number;
  /** A construct drawn in place of the plan's own, such as a bail-out, with the words that stand over the film. */
  readonly onTrial: { readonly construct: Construct; readonly words: string } | null;
}

export interface Desk {
  readonly session: Session;
  readonly planning: Planning;
  readonly state: StoreApi<DeskState>;
}

/** From this width on two films stand side by side at the start. */
const WIDE = 1200;

/** The first film, and the second beside it where there is room. */
export const filmsAtStart = (films: readonly CaseFilm[], windowWidth: number): readonly string[] =>
  films.slice(0, windowWidth >= WIDE ? 2 : 1).map((film) => film.id);

export const openDesk = (films: readonly string[]): StoreApi<DeskState> =>
  createStore<DeskState>(() => ({
    films,
    viewing: viewingAtStart(),
    selected: null,
    placing: null,
    later: new Set(),
    guided: false,
    snaps: false,
    layers: { present: true, plan: true, marks: true, names: false },
    pointedAt: null,
    construct: 0,
    onTrial: null,
  }));

const DeskContext = createContext<Desk | null>(null);
export const DeskProvider = DeskContext.Provider;

export function useDesk(): Desk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error('a part of the case page stands outside of it');
  return desk;
}

export const useSession = <T,>(pick: (state: SessionState) => T): T => useStore(useDesk().session.store, pick);
export const usePlanning = <T,>(pick: (state: PlanningState) => T): T => useStore(useDesk().planning.store, pick);
export const useDeskState = <T,>(pick: (state: DeskState) => T): T => useStore(useDesk().state, pick);

type MarkName = Pick<Mark, 'landmark' | 'side' | 'film'>;

/** Name of a mark within its case. */
export const markKey = (mark: MarkName): string => `${mark.landmark}|${mark.side}|${mark.film}`;
