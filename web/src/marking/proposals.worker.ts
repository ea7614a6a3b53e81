import type { Outcome } from '@gapline/core/measure/outcome.ts';
import { findBalls } from '@gapline/film/proposals/find-balls.ts';
import { findComponents } from '@gapline/film/proposals/find-components.ts';
import { fitHead } from '@gapline/film/proposals/fit-head.ts';
import type { GreyFilm } from '@gapline/film/proposals/grey-film.ts';
import { traceCanal } from '@gapline/film/proposals/trace-canal.ts';
import type { Ask, Found, SearchAnswer, SearchRequest } from './search.ts';

/** Looks on one film for what is asked, beside the page, so that the page stays free. */
function lookFor(film: GreyFilm, ask: Ask): SearchAnswer {
  switch (ask.is) {
    case 'ball':
      return told(ask, findBalls(film, ask.search), (found) => ({ is: 'ball', found }));
    case 'head':
      return told(ask, fitHead(film, ask.search), (found) => ({ is: 'head', found }));
    case 'components':
      return told(ask, findComponents(film, ask.search), (found) => ({ is: 'components', found }));
    case 'canal':
      return told(ask, traceCanal(film, ask.search), (found) => ({ is: 'canal', bone: ask.bone, found }));
  }
}

const told = <T>(ask: Ask, outcome: Outcome<T>, as: (value: T) => Found): SearchAnswer =>
  outcome.ok ? { ok: true, found: as(outcome.value) } : { ok: false, ask: ask.is, reason: outcome.reason };

self.addEventListener('message', (event: MessageEvent<SearchRequest>) => {
  const { pixels, rows, columns, asks } = event.data;
  for (const ask of asks) self.postMessage(lookFor({ pixels, rows, columns }, ask));
});
