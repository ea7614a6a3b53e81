import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { coronalFilm, sagittalFilm } from '../landmarks/limb-film.ts';
import { cannot, type Outcome } from '../measure/outcome.ts';
import { canalAlongItself, type OwnCanal, type TracedBone } from './canal-along-itself.ts';
import { type CanalMeasure, canalMeasures, NO_LEVEL, PLANES, type Plane } from './canal-measures.ts';
import type { Measurement } from './measurement.ts';

type Bone = TracedBone['bone'];

/**
 * Widths, flare, cortices and bow of both canals as they are traced on present films (LIMB-33 to LIMB-36), in a fixed order: a value with spread,
 * or what is missing. Of several traces of one bone and view the one with most levels is read, then the first.
 */
export function measureCanals(evidence: KneeEvidence, traces: readonly TracedBone[]): readonly Measurement[] {
  const read = new Map<string, Outcome<OwnCanal>>();
  const canal = (bone: Bone, plane: Plane): Outcome<OwnCanal> => {
    const key = `${bone} ${plane}`;
    const known = read.get(key) ?? canalOf(evidence, traces, { bone, plane });
    read.set(key, known);
    return known;
  };
  return canalMeasures(evidence.state).map((m) => lineOf(m, evidence, canal(m.bone, m.plane)));
}

const VIEWS: Readonly<Record<Plane, readonly string[]>> = { ap: ['ap', 'long-leg'], lateral: ['lateral'] };

function canalOf(
  evidence: KneeEvidence,
  traces: readonly TracedBone[],
  { bone, plane }: { readonly bone: Bone; readonly plane: Plane },
): Outcome<OwnCanal> {
  const fit = traces.flatMap((trace) => {
    const film = evidence.films.find((f) => f.id === trace.film);
    return trace.bone === bone && film?.role === 'present' && VIEWS[plane].includes(film.view) ? [{ trace, film }] : [];
  });
  const best = fit.reduce<(typeof fit)[number] | null>(
    (a, b) => (a && a.trace.levels.length >= b.trace.levels.length ? a : b),
    null,
  );
  if (!best)
    return cannot({
      code: 'canal-not-traced',
      message: `The canal of the ${bone} is not traced on a present ${PLANES[plane]} film.`,
      field: 'canals',
      mend: 'Trace its walls.',
    });
  const { film, trace } = best;
  const input = { film, side: evidence.side, marks: evidence.marks, calibration: evidence.calibrations.get(film.id) };
  if (plane === 'ap') {
    const seen = coronalFilm(input);
    return seen.ok ? canalAlongItself(trace, seen.value) : seen;
  }
  const seen = sagittalFilm(input);
  return seen.ok ? canalAlongItself(trace, seen.value) : seen;
}

function lineOf(m: CanalMeasure, evidence: KneeEvidence, canal: Outcome<OwnCanal>): Measurement {
  const { id, label, unit, sign, rule, source, normal, inputs } = m;
  const head = { id, label, side: evidence.side, unit, sign, rule, source, ...(normal ? { normal } : {}), inputs };
  const value = canal.ok ? m.of(canal.value) : canal;
  if (!canal.ok || !value.ok) {
    const refused = value.ok ? NO_LEVEL : value.reason;
    return { ...head, value: null, sd: null, film: null, scale: 'none', flags: [], refused };
  }
  const calibration = evidence.calibrations.get(canal.value.film);
  return {
    ...head,
    value: value.value.value,
    sd: value.value.sd,
    film: canal.value.film,
    scale: unit === '1' ? 'not-needed' : (calibration?.source ?? 'none'),
    variant: `canal traced at ${canal.value.sections.length} levels`,
    flags: [
      ...value.value.cautions,
      ...(calibration && calibration.source !== 'none' && calibration.doubtful && unit === 'mm'
        ? [{ code: 'scale-doubtful', message: calibration.because, field: `films[${canal.value.film}].scale` }]
        : []),
    ],
  };
}
