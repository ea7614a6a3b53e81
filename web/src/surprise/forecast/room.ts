import type { SetList } from '@gapline/core/kit/set-list.ts';
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { SetListSummary, StockBody } from '../../../../server/src/contract.ts';
import type { SessionState } from '../../case/session.ts';
import { faultText } from '../../parts/fault-text.ts';

export interface RoomState {
  /** Every list of sets that there is; null = not there yet. */
  readonly lists: readonly SetListSummary[] | null;
  /** The list that the case names; null = none named, not there yet, or not to be had. */
  readonly setList: SetList | null;
  readonly stock: StockBody | null;
  /** Why something could not be had. */
  readonly fault: string | null;
  /** Whether all that the case names has arrived, or was found missing. */
  readonly ready: boolean;
}

export interface Room {
  readonly store: StoreApi<RoomState>;
  /** A list or a stock that was just imported. */
  took(change: Partial<Pick<RoomState, 'lists' | 'stock'>>): void;
  close(): void;
}

/** Where sets and stock come from; the page gives the server's, a test its own. */
export interface Shelf {
  readonly lists: () => Promise<readonly SetListSummary[]>;
  readonly list: (id: string) => Promise<SetList>;
  readonly stock: () => Promise<StockBody | null>;
}

/** What can be in the room: the hospital's sets and its stock, fetched anew when the case names another list. */
export function openRoom(session: StoreApi<SessionState>, shelf: Shelf): Room {
  const store = createStore<RoomState>(() => ({ lists: null, setList: null, stock: null, fault: null, ready: false }));
  let asked: string | undefined | null = null;
  let open = true;
  const put = (change: Partial<RoomState>): void => {
    if (open) store.setState(change);
  };
  const missed = (fault: unknown): void => put({ fault: faultText(fault) });

  const stock = shelf.stock().then((found) => put({ stock: found }), missed);
  shelf.lists().then((lists) => put({ lists }), missed);

  const fetchList = async (id: string | undefined): Promise<void> => {
    asked = id;
    put({ ready: false });
    const setList =
      id === undefined
        ? null
        : await shelf.list(id).catch((fault: unknown) => {
            missed(fault);
            return null;
          });
    await stock;
    if (asked === id) put({ setList, ready: true, ...(setList || id === undefined ? { fault: null } : {}) });
  };
  const changed = (): void => {
    const named = session.getState().shown.kit?.setList;
    if (named !== asked) void fetchList(named);
  };
  const leave = session.subscribe(changed);
  changed();
  return {
    store,
    took: (change) => put(change),
    close() {
      open = false;
      leave();
    },
  };
}
