import type { Stem } from '../../catalogue/catalogue.ts';
import { type Option, type Parts, picks, segments, usual } from './milp-parts.ts';
import { less, type Programme, sum, times } from './programme.ts';
import { out, RANK, type Trial, weigh } from './trial.ts';

interface Holding {
  readonly parts: Parts;
  readonly bone: 'femur' | 'tibia';
  readonly stem: Stem | null;
}

/** The bone's own facts, and its components. */
const factsOf = ({ state }: Trial, { parts, bone }: Holding) =>
  bone === 'femur'
    ? {
        options: parts.femurs,
        cls: state.femurClass,
        quality: state.femurQuality,
        canal: state.femurCanalMm,
        cavity: state.femurCavity,
        limits: state.femoralStemLimits,
        on: [...parts.distal, ...parts.posterior, parts.couplers],
      }
    : {
        options: parts.trays,
        cls: state.tibiaClass,
        quality: state.tibiaQuality,
        canal: state.tibiaCanalMm,
        cavity: state.tibiaCavity,
        limits: state.tibialStemLimits,
        on: [...parts.blocks],
      };

/** Cone and sleeve: at most one, only where one fits. */
function metaphysis(t: Trial, p: Programme, h: Holding): { readonly cone: string; readonly sleeve: string } {
  const { options, cavity } = factsOf(t, h);
  const [cone, sleeve] = [p.choice(), p.choice()];
  const plain = options.filter((o) => !o.segment);
  const fits = (part: { ref: string; bone: string; sizes: readonly number[] }, size: number) =>
    part.bone === h.bone && part.sizes.includes(size) && (!cavity || cavity.some((c) => c.ref === part.ref && c.fits));
  const wide = (o: Option) => Math.max(o.boxMm, h.stem?.diameterMm ?? 0);
  p.atMost(
    cone,
    picks(plain.filter((o) => t.catalogue.cones?.some((c) => fits(c, o.size) && (c.boreMm ?? 1e9) >= wide(o)))),
  );
  const sleeved = (flagged: boolean) =>
    plain.filter((o) => t.catalogue.sleeves?.some((s) => fits(s, o.size) && (!flagged || s.takesOffset)));
  p.atMost(sleeve, picks(sleeved(false)));
  const couplers = h.bone === 'femur' ? h.parts.couplers : h.parts.trayCouplers;
  p.atMost(sum(sleeve, picks(couplers)), sum(1, picks(sleeved(true))));
  p.atMost(sum(cone, sleeve), 1);
  p.pay(weigh(t, 'cone').w, cone);
  p.pay(weigh(t, 'sleeve').w, sleeve);
  return { cone, sleeve };
}

/** What asks for a stem, how long it must be, and what it costs. */
function stemRows(t: Trial, p: Programme, h: Holding & { readonly asks: readonly string[] }): void {
  const { options, cls, canal, limits, on } = factsOf(t, h);
  const { stem, parts } = h;
  const has = parts.stem[h.bone];
  for (const asks of [...on.flatMap((list) => list.map((x) => x.pick)), ...h.asks, segments(options)])
    p.atMost(asks, has);
  if (cls !== '1') p.atMost(1, has);
  p.atMost(picks(parts.inserts.filter((i) => RANK[i.insert.level] > 0)), has);
  const long = (rank: number) => (stem?.lengthMm ?? 0) >= (cls === '3' || rank === 2 ? 100 : 50);
  p.atMost(has, picks(parts.inserts.filter((i) => long(RANK[i.insert.level]))));
  const play = stem?.fixation === 'cemented' ? 8 : 0.5;
  const limit = limits?.find((l) => l.ref === stem?.ref);
  const byCanal = stem && canal !== null ? Math.max(0, canal - play - stem.diameterMm) : 0;
  const loose = limit?.looseMm ?? byCanal;
  const tilt = limit?.forcedTiltDeg;
  const conflict = [tilt?.coronal ?? 0, tilt?.sagittal ?? 0].reduce(
    (cost, deg) => cost + out(Math.abs(deg), weigh(t, 'stem-conflict')),
    0,
  );
  p.pay(weigh(t, 'stem').w + weigh(t, 'stem-fit').w * loose + conflict, has);
}

/** How one bone is held: stem, cone, sleeve, and the zones that are missing. */
export function hold(t: Trial, p: Programme, h: Holding): void {
  const { options, cls, quality } = factsOf(t, h);
  const { cone, sleeve } = metaphysis(t, p, h);
  stemRows(t, p, { ...h, asks: [cone, sleeve] });
  const has = h.parts.stem[h.bone];
  const second = cls === '1' ? sum() : sum(cone, sleeve);
  const rim = cls === '1' || cls === '2A';
  const own = (rim && quality === 'good' ? 1 : 0) + (cls === '1' ? 1 : 0);
  const perhaps = rim && quality === 'unknown' ? 1 : 0;
  const solid = sum(times(own + perhaps, usual(options)), second, has);
  p.pay(weigh(t, 'zones').w, p.excess(less(2, solid)));
  if (!rim) p.atMost(times(2, usual(options)), sum(second, has));
}
