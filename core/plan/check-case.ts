import { type LandmarkId, landmark } from '../landmarks/landmark-table.ts';
import type { Mark } from '../landmarks/mark.ts';
import type { Reason } from '../measure/outcome.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import { filmFindings } from './check-films.ts';

/** What is done about a finding until a person mends it. */
export type Remedy =
  /** The film and its marks are kept out of every calculation. */
  | 'film-held'
  /** The mark is kept out of every calculation. */
  | 'mark-left-out'
  /** Used, with the caution shown. */
  | 'shown';

export interface CaseFinding extends Reason {
  readonly remedy: Remedy;
  /** Index in `films` of the film concerned. */
  readonly film?: number;
  /** Indices in `marks` of the marks concerned. */
  readonly marks?: readonly number[];
}

/**
 * What a schema cannot say about a case (PLAN-1 to PLAN-7): films given twice, films of the wrong side, marks on no film, of
 * another view, of the other side, outside the picture, given twice, and pairs of marks in one place.
 * Each finding names file, field and mend. Nothing is repaired silently and nothing is dropped unsaid.
 */
export function checkCase(file: CaseFile): readonly CaseFinding[] {
  return [...filmFindings(file), ...file.marks.flatMap((mark, i) => markFindings(file, mark, i)), ...emptyLines(file)];
}

/** The case without what the findings keep out. */
export function soundPart(file: CaseFile, findings: readonly CaseFinding[]): CaseFile {
  const held = new Set(findings.filter((f) => f.remedy === 'film-held').map((f) => f.film));
  const out = new Set(findings.filter((f) => f.remedy === 'mark-left-out').flatMap((f) => f.marks ?? []));
  if (held.size === 0 && out.size === 0) return file;
  const films = file.films.filter((_, i) => !held.has(i));
  const known = new Set(films.map((f) => f.id));
  return { ...file, films, marks: file.marks.filter((m, i) => !out.has(i) && known.has(m.film)) };
}

function markFindings(file: CaseFile, mark: Mark, i: number): CaseFinding[] {
  const { label, outline, views } = landmark(mark.landmark);
  const film = file.films.find((f) => f.id === mark.film);
  const leftOut = (code: string, message: string, mend: string): CaseFinding[] => [
    { code, message, file: film?.file ?? 'case.json', field: `marks[${i}]`, mend, remedy: 'mark-left-out', marks: [i] },
  ];
  if (!film) {
    const mend = file.films.length > 0 ? `Films are: ${file.films.map((f) => f.id).join(', ')}.` : 'Add the film.';
    return leftOut('mark-on-no-film', `${label} is marked on film “${mark.film}”, which is not in the case.`, mend);
  }
  if (!views.some((v) => v === film.view)) {
    const message = `${label} cannot be marked on a ${film.view} film (${film.id}).`;
    return leftOut('mark-of-other-view', message, `Mark it on: ${views.join(', ')}; or correct the view of the film.`);
  }
  if (film.side !== 'both' && mark.side !== film.side && mark.landmark !== 'calibration-ball') {
    const message = `${label} is marked for the ${mark.side} knee on a film of the ${film.side} knee (${film.id}).`;
    return leftOut('sides-mixed', message, 'Correct the side of the mark, or of the film.');
  }
  if (!mark.points.every((p) => isOnFilm(p, film))) {
    const size = `${film.scaleFacts.columns} x ${film.scaleFacts.rows} pixels`;
    return leftOut('mark-outside-picture', `${label} lies outside film ${film.id} (${size}).`, 'Place the mark again.');
  }
  const least = outline ? 3 : 1;
  if (mark.points.length < least || (!outline && mark.points.length > 1)) {
    const wanted = outline ? 'three points or more on the outline' : 'exactly one point';
    return leftOut(
      'points-miscounted',
      `${label} needs ${wanted}, not ${mark.points.length}.`,
      'Place the mark again.',
    );
  }
  const first = file.marks.findIndex((m) => sameMark(m, mark));
  if (first < i) {
    const message = `${label} is marked twice on film ${film.id}; the first of the two is used.`;
    return leftOut('mark-given-twice', message, 'Remove one of the two.');
  }
  return [];
}

const sameMark = (a: Mark, b: Mark) => a.landmark === b.landmark && a.side === b.side && a.film === b.film;

/** Half a pixel beyond the outermost pixel centres still is on the picture. */
export function isOnFilm(p: { readonly x: number; readonly y: number }, film: CaseFilm): boolean {
  const { rows, columns } = film.scaleFacts;
  return p.x >= -0.5 && p.y >= -0.5 && p.x <= columns - 0.5 && p.y <= rows - 0.5;
}

/** Pairs that span a line: in one place they span none. */
const LINES: readonly (readonly [LandmarkId, LandmarkId])[] = [
  ['medial-condyle-distal', 'lateral-condyle-distal'],
  ['femoral-component-medial-edge', 'femoral-component-lateral-edge'],
  ['medial-epicondyle', 'lateral-epicondyle'],
  ['tray-medial-edge', 'tray-lateral-edge'],
  ['medial-plateau', 'lateral-plateau'],
  ['tibial-cortex-medial', 'tibial-cortex-lateral'],
  ['femoral-bone-medial-edge', 'femoral-bone-lateral-edge'],
  ['femoral-shaft-proximal-medial', 'femoral-shaft-proximal-lateral'],
  ['femoral-shaft-distal-medial', 'femoral-shaft-distal-lateral'],
  ['talus-medial', 'talus-lateral'],
  ['patella-superior-pole', 'patella-inferior-pole'],
  ['patella-articular-superior', 'patella-articular-inferior'],
  ['plateau-anterior', 'plateau-posterior'],
  ['femoral-component-distal-anterior', 'femoral-component-distal-posterior'],
  ['femoral-sagittal-proximal-posterior', 'femoral-sagittal-distal-posterior'],
  ['femoral-sagittal-proximal-anterior', 'femoral-sagittal-distal-anterior'],
];

/** Two marks nearer than this, px, lie in one place. */
const ONE_PLACE_PX = 0.5;

function emptyLines(file: CaseFile): CaseFinding[] {
  return LINES.flatMap(([one, other]) =>
    file.marks.flatMap((a, i): CaseFinding[] => {
      if (a.landmark !== one) return [];
      const j = file.marks.findIndex((m) => m.landmark === other && m.side === a.side && m.film === a.film);
      const [p, q] = [a.points[0], file.marks[j]?.points[0]];
      if (!p || !q || Math.hypot(p.x - q.x, p.y - q.y) >= ONE_PLACE_PX) return [];
      return [
        {
          code: 'line-has-no-length',
          message: `${landmark(one).label} and ${landmark(other).label} lie in the same place: they span no line.`,
          file: file.films.find((f) => f.id === a.film)?.file ?? 'case.json',
          field: `marks[${j}]`,
          mend: 'Place the two marks apart.',
          remedy: 'mark-left-out',
          marks: [i, j],
        },
      ];
    }),
  );
}
