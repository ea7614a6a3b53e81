import { type Chance, chance } from './chance.ts';

export type Sex = 'female' | 'male';

/** What is chosen for one leg before anything is built; mm and degrees, signs as in docs/phantoms.md. */
export interface DrawnLimb {
  readonly femurMm: number;
  readonly tibiaMm: number;
  /** Distance between the two epicondyles as seen from in front. */
  readonly epicondylarWidthMm: number;
  readonly femurApMm: number;
  readonly tibiaWidthMm: number;
  readonly tibiaApMm: number;
  readonly headDiameterMm: number;
  readonly mldfaDeg: number;
  readonly mptaDeg: number;
  /** + opens laterally. */
  readonly jlcaDeg: number;
  /** Angle between mechanical and anatomical axis of the femur. */
  readonly amaDeg: number;
  /** Posterior-down +. */
  readonly slopeDeg: number;
  readonly bowRadiusMm: number;
  readonly femurCanalMm: number;
  readonly femurIsthmusShare: number;
  readonly tibiaCanalMm: number;
  /** Heights over the native joint line, along the femoral mechanical axis. */
  readonly adductorTubercleMm: number;
  readonly medialEpicondyleMm: number;
  readonly lateralEpicondyleMm: number;
  /** Depths under the native joint line, along the tibial mechanical axis. */
  readonly fibularTipMm: number;
  readonly tubercleMm: number;
  /** Posterior condylar offset of the bone over itself and the depth of the shaft. */
  readonly pcor: number;
  /** Insall-Salvati ratio: tendon over patellar length. */
  readonly insallSalvati: number;
  readonly patellaLengthMm: number;
}

export interface DrawnPerson {
  readonly sex: Sex;
  readonly statureCm: number;
  /** Soft tissue width over bone width at the knee. */
  readonly softIndex: number;
  readonly right: DrawnLimb;
  readonly left: DrawnLimb;
}

/** What a person's two legs share. */
interface Build {
  readonly sex: Sex;
  readonly femurMm: number;
  readonly tibiaMm: number;
  readonly widthMm: number;
}

/** Lengths and widths: stature to femur by Trotter and Gleser's regression turned about, femur to width with r = 0.5. */
function drawBuild(sex: Sex, c: Chance): Build & { statureCm: number } {
  const male = sex === 'male';
  const statureCm = male ? c.normal(176, 7) : c.normal(163, 6.5);
  const expected = male ? (statureCm - 61.41) / 2.38 : (statureCm - 54.1) / 2.47;
  const femurCm = expected + c.normal(0, 1.3);
  const tibiaCm = (femurCm / 1.28) * (1 + c.normal(0, 0.035));
  const usual = male ? (176 - 61.41) / 2.38 : (163 - 54.1) / 2.47;
  const spread = male ? Math.hypot(7 / 2.38, 1.3) : Math.hypot(6.5 / 2.47, 1.3);
  const z = 0.5 * ((femurCm - usual) / spread) + Math.sqrt(0.75) * c.normal(0, 1);
  const widthMm = male ? 83 + 4 * z : 73 + 3.5 * z;
  return { sex, statureCm, femurMm: femurCm * 10, tibiaMm: tibiaCm * 10, widthMm };
}

/** One leg; `asymmetry` draws add the side-to-side difference of healthy people. */
function drawLimb(build: Build, c: Chance): DrawnLimb {
  const fw = build.widthMm;
  const male = build.sex === 'male';
  const shared = c.normal(0, 1);
  const ratio = (mean: number, sd: number) =>
    (mean + sd * (Math.SQRT1_2 * shared + Math.SQRT1_2 * c.normal(0, 1))) * fw;
  const tibiaWidthMm = 0.935 * fw + c.normal(0, 3, 2);
  const femurZ = (build.femurMm - (male ? 481 : 441)) / 30;
  return {
    femurMm: build.femurMm,
    tibiaMm: build.tibiaMm,
    epicondylarWidthMm: fw,
    femurApMm: fw * ((male ? 0.81 : 0.84) + c.normal(0, 0.025, 2)),
    tibiaWidthMm,
    tibiaApMm: tibiaWidthMm / (1.55 + c.normal(0, 0.07, 2)),
    headDiameterMm: male ? c.normal(48.5, 2) : c.normal(43.3, 2),
    mldfaDeg: c.normal(88, 2),
    mptaDeg: c.normal(87, 2.2),
    jlcaDeg: c.normal(0.5, 1),
    amaDeg: c.normal(5.4, 0.9),
    slopeDeg: c.normal(7.5, 3.5, 2),
    bowRadiusMm: Math.max(600, 1000 + 220 * (0.37 * femurZ + Math.sqrt(1 - 0.37 ** 2) * c.normal(0, 1))),
    femurCanalMm: c.normal(11, 1.6, 2),
    femurIsthmusShare: c.normal(0.55, 0.05, 2),
    tibiaCanalMm: c.normal(10.8, 1.2, 2),
    adductorTubercleMm: ratio(0.544, 0.03),
    medialEpicondyleMm: ratio(0.328, 0.026),
    lateralEpicondyleMm: ratio(0.292, 0.024),
    fibularTipMm: c.normal(13, 3.5, 2.2),
    tubercleMm: c.normal(22, 4, 1.5),
    pcor: c.normal(0.44, 0.02, 2),
    insallSalvati: c.normal(1.05, 0.15, 2),
    patellaLengthMm: 0.54 * fw + c.normal(0, 1.5),
  };
}

/**
 * Draws a person of both legs after the published means (geometry reference, sections 8 and 4.3; the sources
 * are listed in docs/phantoms.md). The left leg is the right one with the side-to-side differences of healthy
 * people: angles about 1 to 1.5 degrees, lengths 0.4 cm (Jacquet 2020; side-to-side fibular tip 1.6 mm, 2021).
 */
export function drawPerson(seed: number, sexChosen?: Sex): DrawnPerson {
  const c = chance(seed, 'person');
  const drawnSex: Sex = c.uniform() < 0.6 ? 'female' : 'male';
  const { statureCm, ...build } = drawBuild(sexChosen ?? drawnSex, c);
  const softIndex = c.normal(1.68, 0.2, 2);
  const right = drawLimb(build, c);
  const other = chance(seed, 'other leg');
  const near = (value: number, sd: number) => value + other.normal(0, sd, 2);
  const left: DrawnLimb = {
    ...right,
    femurMm: near(right.femurMm, 2.5),
    tibiaMm: near(right.tibiaMm, 2),
    mldfaDeg: near(right.mldfaDeg, 0.9),
    mptaDeg: near(right.mptaDeg, 0.8),
    jlcaDeg: near(right.jlcaDeg, 0.6),
    amaDeg: near(right.amaDeg, 0.4),
    slopeDeg: near(right.slopeDeg, 1),
    adductorTubercleMm: near(right.adductorTubercleMm, 0.8),
    medialEpicondyleMm: near(right.medialEpicondyleMm, 0.8),
    lateralEpicondyleMm: near(right.lateralEpicondyleMm, 0.8),
    fibularTipMm: near(right.fibularTipMm, 1.3),
  };
  return { sex: build.sex, statureCm, softIndex, right, left };
}
