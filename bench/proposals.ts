import { findBalls } from '../film/proposals/find-balls.ts';
import { findComponents } from '../film/proposals/find-components.ts';
import { fitHead } from '../film/proposals/fit-head.ts';
import type { GreyFilm } from '../film/proposals/grey-film.ts';
import { snapToEdge } from '../film/proposals/snap-to-edge.ts';
import { traceCanal } from '../film/proposals/trace-canal.ts';
import { takeFilm } from '../phantoms/src/film.ts';
import { trueMarks } from '../phantoms/src/landmarks.ts';
import { buildPhantom, plannedFilms } from '../phantoms/src/phantom.ts';
import type { Bench } from './bench-types.ts';
import { median } from './timing/median.ts';

const ROUNDS = 5;
const ALLOWED_MS = 1000;

interface Prepared {
  readonly film: GreyFilm;
  /** A true place on the operated side. */
  readonly at: (id: string) => { readonly frame: 'film'; readonly x: number; readonly y: number };
}

let prepared: Prepared | null = null;

/** A long-leg film of 3000 x 7000, made once. */
function longLeg(): Prepared {
  if (prepared) return prepared;
  const phantom = buildPhantom({ seed: 13 });
  const planned = plannedFilms(phantom).find((p) => p.scene.view === 'long-leg');
  if (!planned) throw new Error('the phantom has no long-leg film');
  const { pixels, rows, columns } = takeFilm(planned.scene, { seed: 13, bits: 12, monochrome1: false, noise: true });
  const marks = trueMarks(planned.scene);
  prepared = {
    film: { pixels, rows, columns },
    at: (id) => {
      const points = marks.find((m) => m.landmark === id && m.side === phantom.side)?.points ?? [];
      const mean = (axis: 'x' | 'y') => points.reduce((s, p) => s + p[axis], 0) / points.length;
      return { frame: 'film', x: mean('x'), y: mean('y') };
    },
  };
  return prepared;
}

/** Every proposal against the second that it may take. */
function bench(name: string, propose: (p: Prepared) => { readonly ok: boolean }): Bench {
  return {
    name: `proposal on a film of 3000 x 7000: ${name}`,
    target: 'under 1 s; alternative = that second (ratio <= 1)',
    run: async () => {
      const film = longLeg();
      const times = Array.from({ length: ROUNDS }, () => {
        const start = performance.now();
        const answer = propose(film);
        if (!answer.ok) throw new Error(`nothing was proposed: ${name}`);
        return performance.now() - start;
      });
      const ours = median(times);
      const note = `first call ${(times[0] ?? 0).toFixed(0)} ms, slowest ${Math.max(...times).toFixed(0)} ms`;
      return { ours, theirs: ALLOWED_MS, unit: 'ms', ratio: ours / ALLOWED_MS, note };
    },
  };
}

const between = (a: { x: number; y: number }, b: { x: number; y: number }) =>
  ({ frame: 'film', x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }) as const;

export const benches: readonly Bench[] = [
  bench('calibration ball', ({ film }) => findBalls(film)),
  bench('femoral head', ({ film, at }) => fitHead(film, { near: at('femoral-head'), mmPerPx: 0.16 })),
  bench('edge', ({ film, at }) => snapToEdge(film, { at: at('medial-condyle-distal') })),
  bench('components', ({ film }) => findComponents(film, { view: 'ap' })),
  bench('cortices of the femur', ({ film, at }) =>
    traceCanal(film, {
      near: between(at('femoral-shaft-distal-medial'), at('femoral-shaft-distal-lateral')),
      far: between(at('femoral-shaft-proximal-medial'), at('femoral-shaft-proximal-lateral')),
      mmPerPx: 0.16,
    }),
  ),
];
