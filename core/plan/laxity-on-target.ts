import type { PerCompartment } from '../landmarks/side.ts';
import { type BoneInputs, coronally } from './bone-inputs.ts';
import { tiltAtMedialContact, trayAtMedialContact } from './bone-supports.ts';
import { type FindingsBook, goWithout, type Known, measuredFor, need, together } from './findings-book.ts';
import { JOINT_LINE, summed } from './shared-spread.ts';

export interface LaxityOnTarget {
  readonly extension: PerCompartment<Known | null>;
  readonly flexion: PerCompartment<Known | null>;
}

/**
 * Laxity that each side would show if the surfaces stood exactly on target (PLAN-15, PLAN-16), from the opening under stress with the
 * present implant.
 *
 * Extension. Spec section 4 for the present implant: opening m = e + J - K, with J and K the heights of the present femoral
 * and tibial surface over the target, so e = m - J + K. In the middle of the loaded knee the surfaces touch:
 * J = K there and e = m. At the medial contact K - J is the tilt of the surfaces (`tiltAtMedialContact`), at the
 * lateral contact its negative: squaring a varus knee takes from the medial side.
 *
 * Flexion. n = f + q - K, the slope being the present one (it is the reference slope, so that its term vanishes):
 * f = n - q + K, with q what the present posterior surface lacks of its offset and K = -h plus the tray's tilt
 * (h: height of the target over the present joint line). Lost offset made flexion loose: restoring it takes that away.
 *
 * Openings mm, 0 = just taut, + = loose. Source: derived; spec section 4.
 */
export function laxityOnTarget(book: FindingsBook, inputs: BoneInputs, presentAnterior: Known | null): LaxityOnTarget {
  const { examination } = inputs.file;
  const both = measuredFor(book, coronally(inputs, tiltAtMedialContact(inputs.tilt)), 'The gaps on each side.');
  const tray = measuredFor(book, coronally(inputs, trayAtMedialContact(inputs.tilt)), 'The flexion gap on each side.');
  const openingSd = examination?.openingSdMm ?? null;
  const m = examination?.openingExtensionMm;
  const n = examination?.openingFlexionMm;
  if (!m) need(book, OPENING('extension', 'openingExtensionMm'));
  if (!n) need(book, OPENING('flexion', 'openingFlexionMm'));
  if (openingSd === null && (m || n)) goWithout(book, OPENING_SD);
  const { heightMm: h, sdMm } = inputs.jointLine;
  const e = (opening: number, side: 1 | -1): Known | null =>
    both && {
      value: opening + side * both.value,
      sd: together(openingSd, both.sd),
      shared: summed([side, both.shared]),
      from: `opening ${mm(opening)} at 0 degrees; surfaces touch in the middle; tilt ${mm(side * both.value)}`,
    };
  const f = (opening: number, side: 1 | -1): Known | null =>
    tray &&
    presentAnterior && {
      value: opening - presentAnterior.value - h + side * tray.value,
      sd: together(openingSd, presentAnterior.sd, sdMm, tray.sd),
      shared: summed([-1, presentAnterior.shared], [side, tray.shared], [-sdMm, JOINT_LINE]),
      from: `opening ${mm(opening)} at 90 degrees; present posterior surface ${mm(presentAnterior.value)} anterior of target; bearing surface ${mm(-h + side * tray.value)} proximal of target`,
    };
  return {
    extension: { medial: m ? e(m.medial, 1) : null, lateral: m ? e(m.lateral, -1) : null },
    flexion: { medial: n ? f(n.medial, 1) : null, lateral: n ? f(n.lateral, -1) : null },
  };
}

const mm = (v: number) => `${v.toFixed(1)} mm`;

const OPENING = (when: string, field: string) => ({
  what: `Opening of each side under stress in ${when}`,
  field: `examination.${field}`,
  wouldChange: 'The gaps: without it no construct can be balanced.',
});

const OPENING_SD = {
  what: 'Spread of the openings under stress',
  field: 'examination.openingSdMm',
  wouldChange: 'The spread of the expected gaps, which cannot be stated without it.',
};
