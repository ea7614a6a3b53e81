import { FEMORAL_LINE, PLATEAU_LINE } from '../landmarks/bony-lines.ts';
import { combine } from '../measure/combine.ts';
import { ok } from '../measure/outcome.ts';
import { type Definition, LONG_LEG, type Variant } from './definition.ts';
import { MLDFA } from './mldfa.ts';
import { MPTA } from './mpta.ts';

/** Arithmetic HKA: MPTA - mLDFA, deg; + = valgus, 0 = neutral, - = varus. No convergence of the joint lines enters. Source: MacDessi 2021. */
export const arithmeticHka = (mpta: number, mldfa: number): number => mpta - mldfa;

/** Joint line obliquity: MPTA + mLDFA, deg; 180 = level, **below 177 apex distal, above 183 apex proximal**. Source: MacDessi 2021. */
export const jointLineObliquity = (mpta: number, mldfa: number): number => mpta + mldfa;

export const CPAK_NAMES = [
  'I: varus, apex distal',
  'II: neutral, apex distal',
  'III: valgus, apex distal',
  'IV: varus, neutral',
  'V: neutral, neutral',
  'VI: valgus, neutral',
  'VII: varus, apex proximal',
  'VIII: neutral, apex proximal',
  'IX: valgus, apex proximal',
] as const;

/**
 * Coronal plane alignment of the knee: phenotype 1 to 9 from the arithmetic HKA (varus below -2, valgus above +2, both
 * limits neutral) and the obliquity (apex distal below 177, apex proximal above 183, both limits neutral), deg.
 * Holds for native bone only. Source: MacDessi 2021; limits from memory.
 * Example: `cpakType(-4.1671, 174.0492)` -> 1.
 */
export function cpakType(ahka: number, jlo: number): number {
  const column = ahka < -2 ? 0 : ahka > 2 ? 2 : 1;
  const row = jlo < 177 ? 0 : jlo > 183 ? 2 : 1;
  return row * 3 + column + 1;
}

/** CPAK joins the native mLDFA and MPTA of one film. */
const joined = (of: (mpta: number, mldfa: number) => number): readonly Variant<'coronal'>[] =>
  MLDFA.variants('native').flatMap((f) =>
    MPTA.variants('native')
      .filter((t) => t.views === LONG_LEG)
      .map((t) => ({
        name: `native bone; ${f.name}; ${t.name}`,
        views: LONG_LEG,
        inputs: [...new Set([...f.inputs, ...t.inputs, ...FEMORAL_LINE.inputs, ...PLATEAU_LINE.inputs])],
        formula: (r) => combine(f.formula(r), t.formula(r), (mldfa, mpta) => ok(of(mpta, mldfa))),
      })),
  );

const native = { frame: 'coronal' as const, nativeOnly: true, source: 'MacDessi 2021', posture: ['rotation'] as const };

export const CPAK: readonly Definition<'coronal'>[] = [
  {
    ...native,
    id: 'arithmetic-hka',
    label: 'Arithmetic HKA (aHKA)',
    unit: 'deg',
    sign: '+ = valgus, 0 = neutral, - = varus; -2 to +2 counts as neutral',
    rule: 'LIMB-11',
    normal: '-0.9 ± 2.5, MacDessi 2021',
    readingSd: 0.85,
    variants: () => joined(arithmeticHka),
  },
  {
    ...native,
    id: 'joint-line-obliquity',
    label: 'Joint line obliquity (JLO)',
    unit: 'deg',
    sign: '180 = level, smaller = apex distal, larger = apex proximal; 177 to 183 counts as neutral',
    rule: 'LIMB-11',
    normal: 'below 177 in most healthy knees (types I and II), MacDessi 2021',
    readingSd: 0.85,
    variants: () => joined(jointLineObliquity),
  },
  {
    ...native,
    id: 'cpak',
    label: 'Coronal plane alignment of the knee (CPAK type, 1 to 9)',
    unit: '1',
    classes: CPAK_NAMES,
    sign: 'I to III apex distal, IV to VI neutral, VII to IX apex proximal; varus, neutral, valgus in each',
    rule: 'LIMB-11',
    normal: 'II 39 %, I 26 %, V 15 % of 500 healthy knees, MacDessi 2021',
    variants: () => joined((mpta, mldfa) => cpakType(arithmeticHka(mpta, mldfa), jointLineObliquity(mpta, mldfa))),
  },
];
