import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';

/**
 * Who works in this window, as that person says. Kept in this browser, written beside every change; nobody is asked to
 * sign in, so it is a name and no proof.
 */
const KEY = 'gapline.person';
/** As long as the server takes. */
const LONGEST = 100;

const store = createStore<{ readonly name: string }>(() => ({ name: localStorage.getItem(KEY) ?? '' }));

/** The name, or undefined where none was given. */
export const personNow = (): string | undefined => store.getState().name || undefined;

export function setPerson(typed: string): void {
  const name = typed.trim().slice(0, LONGEST);
  if (name) localStorage.setItem(KEY, name);
  else localStorage.removeItem(KEY);
  store.setState({ name });
}

export const usePerson = (): string => useStore(store, (s) => s.name);
