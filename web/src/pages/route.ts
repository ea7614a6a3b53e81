import { useSyncExternalStore } from 'react';

/** Where one is: the list, a new case, or one case. Kept in the address after `#`, so that a reload stays there. */
export type Route =
  | { readonly page: 'list' }
  | { readonly page: 'new' }
  | { readonly page: 'case'; readonly id: string; readonly half: CaseHalf };

/** The parts of a case, each a page of its own. */
export type CaseHalf = 'work-up' | 'films' | 'bone-and-kit';

export const LIST = '#/';
export const NEW_CASE = '#/new';
export const caseAddress = (id: string): string => `#/case/${encodeURIComponent(id)}`;
export const workUpAddress = (id: string): string => `${caseAddress(id)}/work-up`;
export const boneAndKitAddress = (id: string): string => `${caseAddress(id)}/bone-and-kit`;

export function routeOf(hash: string): Route {
  if (hash === NEW_CASE) return { page: 'new' };
  const [, id, half] = hash.match(/^#\/case\/([^/]+)(?:\/(work-up|bone-and-kit))?$/) ?? [];
  if (!id) return { page: 'list' };
  return {
    page: 'case',
    id: decodeURIComponent(id),
    half: half === 'work-up' || half === 'bone-and-kit' ? half : 'films',
  };
}

const subscribe = (changed: () => void): (() => void) => {
  window.addEventListener('hashchange', changed);
  return () => window.removeEventListener('hashchange', changed);
};

export const useRoute = (): Route => routeOf(useSyncExternalStore(subscribe, () => window.location.hash));
