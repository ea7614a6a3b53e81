import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { Z95 } from '../measure/quantity.ts';

export const LUCENT_COMPONENTS = ['femur', 'tibia-ap', 'tibia-lateral', 'patella'] as const;

export type LucentComponent = (typeof LUCENT_COMPONENTS)[number];

/**
 * Number of zones of each component, CAUSE-3. Tibia AP: 1 to 4 under the plateau from medial to lateral, 5 to 7 about
 * the stem; tibia lateral: three; femur lateral: seven; patella: five. Ewald 1989, Clin Orthop 248:9 (from memory).
 */
export const ZONES: Readonly<Record<LucentComponent, number>> = {
  femur: 7,
  'tibia-ap': 7,
  'tibia-lateral': 3,
  patella: 5,
};

/** Widest lucent line of one zone, mm; 0 = looked and none seen; null = not looked for. */
export type ZoneWidths = readonly (number | null)[];

export interface LucentReading {
  /** Sum of the widest lines, mm, over the zones that were looked at. */
  readonly sumMm: number;
  readonly zonesNotLookedAt: number;
  /** The 1989 reading; null for a component that it was not published for, or while zones are missing and could change it. */
  readonly reading1989: 'probably-not-significant' | 'follow-closely' | 'possible-or-impending-failure' | null;
  /** The 2015 description: extent and width, no score. */
  readonly reading2015: {
    readonly extent: 'none' | 'partial' | 'complete' | 'not-known';
    readonly width: 'none' | 'under-2-mm' | '2-mm-or-more';
  };
}

function read1989(component: LucentComponent, sum: number, unseen: number, progressing: boolean | null) {
  if (ZONES[component] !== 7) return null;
  if (sum >= 10) return 'possible-or-impending-failure' as const;
  // Zones not looked at can only add: below 10 nothing can be said for certain while some are missing.
  if (unseen > 0) return null;
  if (sum >= 5 || progressing === true) return 'follow-closely' as const;
  return progressing === false ? ('probably-not-significant' as const) : null;
}

/**
 * CAUSE-3: reads lucent lines of one component in both published ways.
 * 1989: sum of the widest line of every zone of a seven-zone component: 4 or less and not progressing = probably not
 * significant; 5 to 9 = follow closely; 10 or more = possible or impending failure, whatever the symptoms
 * (Ewald, from memory). A sum between 4 and 5 is read as 5 (the careful side; the publication counts whole millimetres).
 * 2015: partial or complete, under 2 mm or not; no number (Meneghini 2015, J Arthroplasty, from memory).
 * @param progressing whether the line grew between two dates; null = only one date.
 * Refuses a wrong number of zones and negative widths.
 */
export function readLucentLines(
  component: LucentComponent,
  widths: ZoneWidths,
  progressing: boolean | null,
): Outcome<LucentReading> {
  if (widths.length !== ZONES[component])
    return cannot({
      code: 'zones-do-not-match',
      message: `${component} has ${ZONES[component]} zones, ${widths.length} were given.`,
      field: `lucentLines.${component}`,
      mend: 'Give one width, or null, for each zone.',
    });
  const bad = widths.findIndex((w) => w !== null && !(Number.isFinite(w) && w >= 0));
  if (bad >= 0)
    return cannot({
      code: 'width-not-valid',
      message: `The width of zone ${bad + 1} is not a length.`,
      field: `lucentLines.${component}[${bad}]`,
      mend: 'Give the widest line in mm: 0 for none seen, empty for not looked at.',
    });
  const seen = widths.filter((w) => w !== null);
  const unseen = widths.length - seen.length;
  const sum = seen.reduce((a, w) => a + w, 0);
  const counted = sum > 4 && sum < 5 ? 5 : sum;
  const lines = seen.filter((w) => w > 0);
  const extent =
    lines.length === widths.length ? 'complete' : unseen > 0 ? 'not-known' : lines.length > 0 ? 'partial' : 'none';
  return ok({
    sumMm: sum,
    zonesNotLookedAt: unseen,
    reading1989: read1989(component, counted, unseen, progressing),
    reading2015: {
      extent:
        extent === 'not-known' && lines.length < seen.length ? (lines.length > 0 ? 'partial' : 'not-known') : extent,
      width: lines.length === 0 ? 'none' : Math.max(...lines) >= 2 ? '2-mm-or-more' : 'under-2-mm',
    },
  });
}

/** The widest line of one zone as measured on a film, mm, with its spread. */
export interface MeasuredZone {
  readonly widthMm: number;
  readonly sdMm: number;
}

export interface ZoneChange {
  /** Counted from 1. */
  readonly zone: number;
  readonly changeMm: number;
  readonly sdMm: number;
  /** Larger than its own 95 % uncertainty; grew = + . */
  readonly reading: 'grew' | 'shrank' | 'within-error';
}

export interface LucentProgress {
  readonly zones: readonly ZoneChange[];
  /** For `readLucentLines`: null = the films cannot tell. */
  readonly progressing: boolean | null;
}

/** Growth that must have been told in every zone before a component may be called still, mm (choice, CMP-8). */
const GROWTH_TO_TELL_MM = 1;

/**
 * CMP-8: lucent lines of one component on two dates. Index = zone - 1; null = not measured on that date; a zone looked at without a line has width 0.
 * Progressing when any zone grew beyond the 95 % uncertainty of the difference; not progressing only when every zone was seen on both dates, none
 * grew, and growth of 1 mm would have been told in each; else null. Widths and spreads in mm. Refuses lists of unequal length.
 */
export function readLucentProgress(
  before: readonly (MeasuredZone | null)[],
  now: readonly (MeasuredZone | null)[],
): Outcome<LucentProgress> {
  if (before.length !== now.length)
    return cannot({
      code: 'zones-do-not-match',
      message: `${before.length} zones on the older date, ${now.length} on the newer.`,
      field: 'lucentLines',
      mend: 'Give one width, or null, for each zone on both dates.',
    });
  const zones = before.flatMap((a, i): ZoneChange[] => {
    const b = now[i];
    if (!a || !b) return [];
    const [changeMm, sdMm] = [b.widthMm - a.widthMm, Math.hypot(a.sdMm, b.sdMm)];
    const clear = Math.abs(changeMm) > Z95 * sdMm;
    return [{ zone: i + 1, changeMm, sdMm, reading: !clear ? 'within-error' : changeMm > 0 ? 'grew' : 'shrank' }];
  });
  const grew = zones.some((z) => z.reading === 'grew');
  const told = zones.length === before.length && zones.every((z) => z.changeMm + Z95 * z.sdMm < GROWTH_TO_TELL_MM);
  return ok({ zones, progressing: grew ? true : told ? false : null });
}
