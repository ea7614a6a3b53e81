/** Puts the keyboard on a film once what was just asked for is drawn. */
export function focusFilm(film: string): void {
  requestAnimationFrame(() =>
    document.querySelector<HTMLElement>(`[data-film="${CSS.escape(film)}"] .film-touch`)?.focus(),
  );
}
