import type { StoreApi } from 'zustand/vanilla';
import type { DeskState } from '../case/desk.tsx';
import type { ToolInHand } from './tool-in-hand.ts';

/** Takes up a tool, brings its film into sight, and puts the keyboard on the film once it is drawn. */
export function showWithTool(state: StoreApi<DeskState>, tool: ToolInHand): void {
  const { films } = state.getState();
  state.setState({
    tool,
    placing: null,
    selected: null,
    ...(films.includes(tool.film) ? {} : { films: [tool.film] }),
  });
  requestAnimationFrame(() => document.querySelector<HTMLElement>(`[data-film="${tool.film}"] .film-touch`)?.focus());
}
