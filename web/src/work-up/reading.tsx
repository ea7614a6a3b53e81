import { surroundingsOf } from '@gapline/core/plan/surroundings.ts';
import { readWorkUp, type WorkUpReading } from '@gapline/core/work-up/read-work-up.ts';
import type { WorkUp } from '@gapline/core/work-up/work-up.ts';
import { createContext, type ReactNode, useContext, useMemo } from 'react';
import { usePlanning, useSession } from '../case/desk.tsx';
import { useSlot } from './slot.ts';

const EMPTY: WorkUp = {};

/** The calendar day on this machine's clock, YYYY-MM-DD. */
export function today(): string {
  const now = new Date();
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** The work-up of the open case; empty while nothing is filled in. */
export const useRecord = (): WorkUp => useSlot<WorkUp>('/workUp').value ?? EMPTY;

/** The work-up read anew at every change, a keystroke included. */
export function useFreshReading(): WorkUpReading {
  const record = useRecord();
  const plan = usePlanning((s) => s.settled.plan);
  const planned = usePlanning((s) => s.settled.of);
  const examination = useSession((s) => s.shown.examination);
  const bone = useSession((s) => s.shown.bone);
  // The films are read again only with a new plan, not at every keystroke in the work-up.
  const around = useMemo(() => {
    const { examination: _e, bone: _b, ...rest } = planned;
    return surroundingsOf({ ...rest, ...(examination && { examination }), ...(bone && { bone }) }, plan, today());
  }, [planned, plan, examination, bone]);
  return useMemo(() => readWorkUp(record, around), [record, around]);
}

const ReadingContext = createContext<WorkUpReading | null>(null);

export function ReadingProvider({ children }: { readonly children: ReactNode }) {
  const reading = useFreshReading();
  return <ReadingContext.Provider value={reading}>{children}</ReadingContext.Provider>;
}

export function useReading(): WorkUpReading {
  const reading = useContext(ReadingContext);
  if (!reading) throw new Error('a part of the work-up stands outside of its page');
  return reading;
}
