import { hasMillimetres } from '../calibration/calibration.ts';
import { toLimb } from '../landmarks/film-to-limb.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { NO_SCALE } from '../landmarks/millimetres.ts';
import type { View } from '../landmarks/view.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { direction, normalOf } from '../plane/direction.ts';
import { between, dot, midpoint, type Point, point } from '../plane/point.ts';

export const SPAN_KINDS = ['lucent-line', 'cement-mantle'] as const;
export type SpanKind = (typeof SPAN_KINDS)[number];

/** Interfaces by the film that shows them; the same names as the charts of lucent lines (CAUSE-3). */
export const SPAN_COMPONENTS = ['femur', 'tibia-ap', 'tibia-lateral', 'patella'] as const;
export type SpanComponent = (typeof SPAN_COMPONENTS)[number];

interface FilmPoint {
  readonly x: number;
  readonly y: number;
}

/** A width marked across an interface on one film, in one zone: a lucent line, or the cement between metal and bone. */
export interface InterfaceSpan {
  readonly id: string;
  readonly kind: SpanKind;
  readonly component: SpanComponent;
  /** Counted from 1, as in the charts of lucent lines. */
  readonly zone: number;
  readonly film: string;
  /** Its two edges, film pixels. */
  readonly from: FilmPoint;
  readonly to: FilmPoint;
  /** Standard deviation of marking one edge across the interface, mm in the patient; absent = 0.3. */
  readonly sdMm?: number;
  readonly by?: string;
}

/** Views on which the interface of a component is seen. */
export const SPAN_VIEWS: Readonly<Record<SpanComponent, readonly View[]>> = {
  femur: ['lateral'],
  'tibia-ap': ['ap', 'long-leg'],
  'tibia-lateral': ['lateral'],
  patella: ['skyline'],
};

/** Standard deviation of marking one edge of a sharp interface where none is stated, mm (assumption). */
const EDGE_SD_MM = 0.3;

export interface SpanWidth {
  readonly span: InterfaceSpan;
  readonly widthMm: number;
  readonly sdMm: number;
}

/**
 * Width of one marked span (LIMB-37 lucent lines, LIMB-38 cement mantle), mm in the patient, always positive, with its spread from both edges
 * and the scale. Refuses a film that is not there, of another side or view, or without scale, and coordinates that are no numbers.
 */
export function spanWidth(span: InterfaceSpan, evidence: KneeEvidence): Outcome<SpanWidth> {
  const film = evidence.films.find((f) => f.id === span.film);
  const refuse = (code: string, message: string, mend: string) =>
    cannot({ code, message: `${named(span)}: ${message}`, field: `interfaceSpans[${span.id}]`, mend });
  if (!film || (film.side !== 'both' && film.side !== evidence.side))
    return refuse('span-on-no-film', `film ${span.film} does not show this knee.`, 'Mark it on a film of this knee.');
  if (!SPAN_VIEWS[span.component].includes(film.view))
    return refuse('span-on-other-view', `a ${film.view} film does not show it.`, 'Mark it on a film that shows it.');
  const calibration = evidence.calibrations.get(film.id);
  if (!calibration || !hasMillimetres(calibration)) return cannot({ ...NO_SCALE, field: `films[${film.id}].scale` });
  const { x, y } = calibration.mmPerPx;
  const widthMm = Math.hypot((span.to.x - span.from.x) * x, (span.to.y - span.from.y) * y);
  if (!Number.isFinite(widthMm))
    return refuse('not-a-finite-number', 'a coordinate is not a number.', 'Mark it again.');
  const edges = Math.SQRT2 * (span.sdMm ?? EDGE_SD_MM);
  return ok({ span, widthMm, sdMm: Math.hypot(edges, calibration.relativeSd * widthMm) });
}

const named = ({ kind, component, zone }: InterfaceSpan): string =>
  `${kind === 'lucent-line' ? 'Lucent line' : 'Cement mantle'}, ${component}, zone ${zone}`;

/** The widest span of every zone of one component and kind, by zone; zones without one are absent. Spans that cannot be read are left out. */
export function widestByZone(
  spans: readonly InterfaceSpan[],
  evidence: KneeEvidence,
  of: { readonly kind: SpanKind; readonly component: SpanComponent },
): ReadonlyMap<number, SpanWidth> {
  const widest = new Map<number, SpanWidth>();
  for (const span of spans) {
    if (span.kind !== of.kind || span.component !== of.component) continue;
    const read = spanWidth(span, evidence);
    if (!read.ok) continue;
    const known = widest.get(span.zone);
    if (!known || read.value.widthMm > known.widthMm) widest.set(span.zone, read.value);
  }
  return new Map([...widest].sort(([a], [b]) => a - b));
}

/** Deeper than this below the upper face of a tray, mm, a place beside its middle lies along the stem. */
const STEM_BELOW_MM = 12;
/** Half the width of what lies below the tip of a stem rather than beside it, mm. */
const TIP_HALF_MM = 4;

/**
 * The zone in which a place below a tray lies on an AP film (LIMB-37), to be offered and changed by hand: 1 to 4 under the plate from medial to
 * lateral, 5 medial of the stem, 6 below its tip, 7 lateral of it. Null where the tray is not marked or the film has no scale.
 */
export function trayZone(film: LimbFilm<'coronal'>, at: FilmPoint): number | null {
  const [m, l] = [film.placed.get('tray-medial-edge')?.at, film.placed.get('tray-lateral-edge')?.at];
  const mm = film.mmPerUnit;
  if (!m || !l || mm === null) return null;
  const along = direction(m, l);
  if (!along.ok) return null;
  const p: Point<'coronal'> = toLimb(film.toLimb, point('film', at.x, at.y));
  const width = dot(between(m, l), along.value) * mm;
  const off = dot(between(midpoint(m, l), p), along.value) * mm;
  const below = -dot(between(m, p), normalOf(along.value)) * mm;
  if (below > STEM_BELOW_MM && Math.abs(off) < width / 4) return off < -TIP_HALF_MM ? 5 : off > TIP_HALF_MM ? 7 : 6;
  const share = Math.min(Math.max(off / width + 0.5, 0), 1);
  return Math.min(4, 1 + Math.floor(4 * share));
}
