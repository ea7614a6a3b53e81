import { hasMillimetres } from '@gapline/core/calibration/calibration.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useMemo } from 'react';
import { usePlanning } from '../case/desk.tsx';
import type { FilmSize } from './viewport.ts';

/** Columns, rows and the shape of the pixels, one and the same object while they stay as they are. */
export function useFilmSize(film: CaseFilm): FilmSize {
  const calibration = usePlanning((s) => s.plan.films.find((f) => f.id === film.id)?.calibration);
  const { rows, columns, pixelAspect } = film.scaleFacts;
  const aspect =
    calibration && calibration.source !== 'none'
      ? calibration.mmPerPx.y / calibration.mmPerPx.x
      : (calibration?.pixelAspect ?? pixelAspect ?? 1);
  // A scale that moves with a mark leaves the shape of the pixels as it is, but for rounding.
  const rounded = Math.round(aspect * 1e6) / 1e6;
  return useMemo(() => ({ rows, columns, aspect: rounded }), [rows, columns, rounded]);
}

/** Millimetres a film pixel measures across; null where the film has no scale. */
export function useMmPerColumn(film: string): number | null {
  return usePlanning((s) => {
    const calibration = s.plan.films.find((f) => f.id === film)?.calibration;
    return calibration && hasMillimetres(calibration) ? calibration.mmPerPx.x : null;
  });
}
