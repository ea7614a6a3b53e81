import type { Level } from '../film/pyramid.ts';
import type { Ask, SearchAnswer, SearchRequest } from './search.ts';

/** Sends a film and what is looked for on it to a worker; answers in the order of the asks. Tells how many are there. */
export function lookOnFilm(
  { values, height, width }: Level,
  asks: readonly Ask[],
  tell: (done: number) => void,
): Promise<readonly SearchAnswer[]> {
  if (asks.length === 0) return Promise.resolve([]);
  const worker = new Worker(new URL('proposals.worker.js', document.baseURI), { type: 'module' });
  return new Promise<readonly SearchAnswer[]>((done, failed) => {
    const answers: SearchAnswer[] = [];
    worker.addEventListener('message', (event: MessageEvent<SearchAnswer>) => {
      answers.push(event.data);
      tell(answers.length);
      if (answers.length === asks.length) done(answers);
    });
    worker.addEventListener('error', () => failed(new Error('Nothing could be looked for. Reload the page.')));
    worker.postMessage({ pixels: values, rows: height, columns: width, asks } satisfies SearchRequest);
  }).finally(() => worker.terminate());
}
