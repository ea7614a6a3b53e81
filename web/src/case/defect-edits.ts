import type { DrawnDefect } from '@gapline/core/bone/bone-map.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import type { Place } from '../film/viewport.ts';
import { onFilm } from './marking.ts';

/** Defects drawn on films, changed one by one; the case holds them as one list. */
const setDrawn = (drawn: readonly DrawnDefect[]): Edit => ({
  kind: 'set',
  field: '/bone/drawn',
  value: drawn.length > 0 ? drawn : null,
});

const drawnIn = (file: CaseFile): readonly DrawnDefect[] => file.bone?.drawn ?? [];

export const addDefect = (file: CaseFile, defect: DrawnDefect): Edit =>
  setDrawn([...drawnIn(file), { ...defect, outline: defect.outline.map(onFilm) }]);

export const removeDefect = (file: CaseFile, id: string): Edit => setDrawn(drawnIn(file).filter((d) => d.id !== id));

export const moveCorner = (file: CaseFile, id: string, of: { corner: number; to: Place }): Edit =>
  setDrawn(
    drawnIn(file).map((d) =>
      d.id === id ? { ...d, outline: d.outline.map((p, i) => (i === of.corner ? onFilm(of.to) : p)) } : d,
    ),
  );

/** One corner taken away; with its third-last corner the whole outline goes, since two enclose nothing. */
export function removeCorner(file: CaseFile, id: string, corner: number): Edit {
  const left = drawnIn(file).find((d) => d.id === id)?.outline.length ?? 0;
  if (left <= 3) return removeDefect(file, id);
  return setDrawn(
    drawnIn(file).map((d) => (d.id === id ? { ...d, outline: d.outline.filter((_, i) => i !== corner) } : d)),
  );
}

/** Surfaces in words, as the buttons and lists have them. */
export const SURFACE_WORDS: Readonly<Record<DrawnDefect['surface'], string>> = {
  'femur-distal': 'Femur, distal',
  'femur-posterior': 'Femur, posterior',
  'femur-anterior': 'Femur, anterior',
  'tibia-plateau': 'Tibia, plateau',
  'femur-metaphysis': 'Femur, metaphysis',
  'tibia-metaphysis': 'Tibia, metaphysis',
};

export const defectWords = ({ surface, compartment }: Pick<DrawnDefect, 'surface' | 'compartment'>): string =>
  compartment === 'both' ? SURFACE_WORDS[surface] : `${SURFACE_WORDS[surface]}, ${compartment}`;
