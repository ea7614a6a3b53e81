import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { type Desk, markKey } from '../case/desk.tsx';

/** Brings a mark into sight and selects it. */
export function showMark({ state }: Desk, mark: Pick<Mark, 'landmark' | 'side' | 'film'>): void {
  const { films } = state.getState();
  state.setState({
    ...(films.includes(mark.film) ? {} : { films: [mark.film] }),
    selected: { key: markKey(mark), index: 0 },
    placing: null,
    guided: false,
    tool: null,
  });
}
