import { useSyncExternalStore } from 'react';

/** Where one is: the list, a new case, or one case. Kept in the address after `#`, so that a reload stays there. */
export type Route =
  | { readonly page: 'list' }
  | { readonly page: 'new' }
  | { readonly page: 'case'; readonly id: string; readonly half: 'films' | 'work-up' };

export const LIST = '#/';
export const NEW_CASE = '#/new';
export const caseAddress = (id: string): string => `#/case/${encodeURIComponent(id)}`;
export const workUpAddress = (id: string): string => `${caseAddress(id)}/work-up`;

export function routeOf(hash: string): Route {
  if (hash === NEW_CASE) return { page: 'new' };
  const [, id, half] = hash.match(/^#\/case\/([^/]+)(\/work-up)?$/) ?? [];
  return id ? { page: 'case', id: decodeURIComponent(id), half: half ? 'work-up' : 'films' } : { page: 'list' };
}

const subscribe = (changed: () => void): (() => void) => {
  window.addEventListener('hashchange', changed);
  return () => window.removeEventListener('hashchange', changed);
};

export const useRoute = (): Route => routeOf(useSyncExternalStore(subscribe, () => window.location.hash));
