import type { Calibration } from '../calibration/calibration.ts';
import type { EvidenceFilm, KneeEvidence } from '../landmarks/knee-evidence.ts';
import { axialFilm, coronalFilm, type LimbFilm, sagittalFilm } from '../landmarks/limb-film.ts';
import { otherSide } from '../landmarks/side.ts';
import { CORONAL_VIEWS } from '../landmarks/view.ts';
import type { Reason } from '../measure/outcome.ts';
import { CORONAL_MEASUREMENTS, SAGITTAL_MEASUREMENTS } from './all-measurements.ts';
import { centreCautions } from './centre-check.ts';
import { identityCaution, identityResidual } from './identity.ts';
import { type FilmsOfLimb, measureOne } from './measure-one.ts';
import type { Measurement } from './measurement.ts';
import { patellaCaution } from './patella-baja.ts';
import { AXIAL_MEASUREMENTS } from './patella-skyline.ts';

/**
 * Every measurement of one knee (LIMB-, PAT- rules), in a fixed order: a value with unit, sign and spread, or what is
 * missing for it. Marks in film pixels; angles deg, lengths mm, ratios without unit. Native-only quantities of a replaced knee are read from
 * a film before the first replacement, or refused.
 */
export function measureKnee(
  evidence: KneeEvidence,
  options: { readonly keepsCauses?: boolean } = {},
): readonly Measurement[] {
  const films = filmsOfLimb(evidence);
  const where = { evidence, unreadable: films.unreadable, ...options };
  const { state } = evidence;
  const lines = [
    ...CORONAL_MEASUREMENTS.filter((d) => d.nativeOnly || d.variants(state).length > 0).map((d) =>
      measureOne(d, { ...where, films: films.coronal }),
    ),
    ...SAGITTAL_MEASUREMENTS.filter((d) => d.variants(state).length > 0).map((d) =>
      measureOne(d, { ...where, films: films.sagittal }),
    ),
    ...AXIAL_MEASUREMENTS.filter((d) => d.variants(state).length > 0).map((d) =>
      measureOne(d, { ...where, films: films.axial ?? [] }),
    ),
  ];
  return withCrossChecks(lines, films.coronal, evidence);
}

/**
 * The operated knee and, where any of its points are marked on a present film, the other knee: as native
 * unless component marks show that it is replaced too.
 */
export function measureCase(evidence: KneeEvidence): readonly Measurement[] {
  const other = otherKnee(evidence);
  return [...measureKnee(evidence), ...(other ? measureKnee(other) : [])];
}

/** The other knee as evidence of its own, or null when nothing of it is marked. */
export function otherKnee(evidence: KneeEvidence): KneeEvidence | null {
  const side = otherSide(evidence.side);
  const marks = evidence.marks.filter((m) => m.side === side && m.landmark !== 'calibration-ball');
  if (marks.length === 0) return null;
  const replaced = marks.some((m) => m.landmark.startsWith('tray-') || m.landmark.startsWith('femoral-component-'));
  const { films, calibrations, otherKneeCalibrations } = evidence;
  // Implants and posture are stated for the knee to be operated on alone.
  return {
    side,
    state: replaced ? 'replaced' : 'native',
    films,
    marks: evidence.marks,
    calibrations: otherKneeCalibrations ? new Map([...calibrations, ...otherKneeCalibrations]) : calibrations,
  };
}

function filmsOfLimb({ films, side, marks, calibrations }: KneeEvidence): FilmsOfLimb {
  const coronal: LimbFilm<'coronal'>[] = [];
  const sagittal: LimbFilm<'sagittal'>[] = [];
  const axial: LimbFilm<'axial'>[] = [];
  const unreadable = new Map<string, Reason>();
  for (const film of films) {
    if (film.side !== 'both' && film.side !== side) continue;
    const seen = see(film);
    if (!seen) continue;
    if (!seen.ok) unreadable.set(film.id, seen.reason);
    else if (seen.value.toLimb.frame === 'coronal') coronal.push(seen.value as LimbFilm<'coronal'>);
    else if (seen.value.toLimb.frame === 'sagittal') sagittal.push(seen.value as LimbFilm<'sagittal'>);
    else axial.push(seen.value as LimbFilm<'axial'>);
  }
  return { coronal, sagittal, axial, unreadable };

  function see(film: EvidenceFilm) {
    const calibration: Calibration | undefined = calibrations.get(film.id);
    if (CORONAL_VIEWS.includes(film.view)) return coronalFilm({ film, side, marks, calibration });
    if (film.view === 'skyline') return axialFilm({ film, side, marks, calibration });
    return film.view === 'lateral' ? sagittalFilm({ film, side, marks, calibration }) : null;
  }
}

const IDENTITY = ['hka', 'mldfa', 'mpta', 'jlca'] as const;
const PATELLA = ['insall-salvati', 'modified-insall-salvati', 'blackburne-peel', 'caton-deschamps'];

/** Checks that need several lines at once: the identity, the knee centres against each other, the patella. */
function withCrossChecks(
  lines: readonly Measurement[],
  films: readonly LimbFilm<'coronal'>[],
  evidence: KneeEvidence,
): readonly Measurement[] {
  const value = (id: string) => lines.find((m) => m.id === id)?.value ?? null;
  const [hka, mldfa, mpta, jlca] = IDENTITY.map(value);
  const identity =
    hka != null && mldfa != null && mpta != null && jlca != null
      ? identityCaution(identityResidual({ hka, mldfa, mpta, jlca }))
      : null;
  const patella = patellaCaution(lines);
  return lines.map((m) => {
    const extra = [
      ...(identity && (IDENTITY as readonly string[]).includes(m.id) ? [identity] : []),
      ...(patella && PATELLA.includes(m.id) && m.value !== null ? [patella] : []),
      ...(m.id === 'hka' ? centreCautions(films, evidence.state) : []),
    ];
    return extra.length > 0 ? { ...m, flags: [...m.flags, ...extra] } : m;
  });
}
