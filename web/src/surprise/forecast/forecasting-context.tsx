import { createContext, type ReactNode, useContext, useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { useDesk } from '../../case/desk.tsx';
import { today } from '../../work-up/reading.tsx';
import { getSetList, getSetLists, getStock } from '../wire.ts';
import { type Forecasting, type ForecastingState, openForecasting } from './forecasting.ts';
import { openRoom, type Room, type RoomState } from './room.ts';

interface Surprise {
  readonly forecasting: Forecasting;
  readonly room: Room;
}

const SurpriseContext = createContext<Surprise | null>(null);

/** The forecast and the room of the open case, for everything on the page. */
export function SurpriseProvider({ children }: { readonly children: ReactNode }) {
  const { session, planning } = useDesk();
  const [opened, setOpened] = useState<Surprise | null>(null);
  useEffect(() => {
    const room = openRoom(session.store, { lists: getSetLists, list: getSetList, stock: getStock });
    const forecasting = openForecasting({
      planning: planning.store,
      room: room.store,
      today,
      openWorker: () => new Worker(new URL('forecast.worker.js', document.baseURI), { type: 'module' }),
      later: (what, ms) => {
        const timer = window.setTimeout(what, ms);
        return () => window.clearTimeout(timer);
      },
    });
    setOpened({ room, forecasting });
    return () => {
      forecasting.close();
      room.close();
    };
  }, [session, planning]);
  return opened && <SurpriseContext.Provider value={opened}>{children}</SurpriseContext.Provider>;
}

export function useSurprise(): Surprise {
  const surprise = useContext(SurpriseContext);
  if (!surprise) throw new Error('a part of the page stands outside of it');
  return surprise;
}

/** Forecast and kit as they stand; pick what is needed. */
export const useForecasting = <T,>(pick: (state: ForecastingState) => T): T =>
  useStore(useSurprise().forecasting.store, pick);

/** Lists of sets and stock as they stand. */
export const useRoom = <T,>(pick: (state: RoomState) => T): T => useStore(useSurprise().room.store, pick);
