import { findBalls } from '@gapline/film/proposals/find-balls.ts';
import { findComponents } from '@gapline/film/proposals/find-components.ts';
import { describe, expect, test } from 'vitest';
import { confidentWrong, quantile, Tallies } from './proposals/score.ts';
import { judgeFilm } from './proposals/study.ts';
import { BEGIN, END, tableOf } from './proposals/table.ts';
import { variedFilms } from './proposals/varied-films.ts';

// A small part of the study of docs/proposals.md, as its guard: phantoms share no formula with what is proposed on their films.

const films = [...variedFilms(21, { resolution: 0.4, views: ['ap', 'lateral'] })];
const tallies = new Tallies();
for (const one of films) judgeFilm(one, tallies);

const scored = (what: string) => tallies.all.get(what)?.scored ?? [];
const medianMm = (what: string) =>
  quantile(
    scored(what).map((s) => s.mm),
    0.5,
  );

describe('proposals on phantoms with clutter', () => {
  test('PRO-1 no confident answer is wrong', () => {
    const all = [...tallies.all.values()].flatMap((t) => t.scored);
    expect(all.filter((s) => s.confident).length).toBeGreaterThan(40);
    expect(confidentWrong(all)).toBe(0);
  });

  test.each([
    ['PRO-2', 'ball of known diameter, centre', 0.1],
    ['PRO-4', 'edge of metal', 0.2],
    ['PRO-5', 'distal tangent, across', 0.5],
    ['PRO-5', 'tray from in front, line', 1],
    ['PRO-6', 'femur from in front, inner wall', 0.3],
    ['PRO-6', 'tibia from the side, outer wall', 0.5],
  ])('%s the median error of %s is under %d mm', (_rule, what, limit) => {
    expect(scored(what).length).toBeGreaterThan(0);
    expect(medianMm(what)).toBeLessThan(limit);
  });

  test('the same film gives the same proposals, and the film is left as it was', () => {
    const film = films[0]?.film;
    if (!film) throw new Error('no film');
    const before = film.pixels.slice();
    const look = () => JSON.stringify([findBalls(film), findComponents(film, { view: 'ap' })]);
    expect(look()).toBe(look());
    expect(film.pixels).toEqual(before);
  });

  test('the table has a line for everything that was tried', () => {
    const lines = tableOf(tallies, 1).split('\n');
    expect(lines.length - 4).toBe(tallies.all.size);
    expect([BEGIN, END].every((mark) => mark.startsWith('<!--'))).toBe(true);
  });
});
