import { type Beam, coarser } from './beam.ts';
import { chance } from './chance.ts';
import type { Mesh } from './mesh.ts';
import { addPathLength, rayLengths } from './path-length.ts';

/** A solid in the room with what a millimetre of it adds to each material. */
export interface RoomSolid {
  readonly mesh: Mesh;
  readonly bone?: number | undefined;
  readonly metal?: number | undefined;
  readonly soft?: number | undefined;
  /** As `bone`, for what varies slowly: taken on coarser pixels. */
  readonly spongy?: number | undefined;
  /** Soft tissue of the trunk: where it overlaps a limb the longer path counts, not both. */
  readonly trunk?: number | undefined;
}

/**
 * Linear attenuation, per mm, in three energy bins near 40, 60 and 80 keV, with their share of the detected
 * signal. Water, cortical bone (1.92 g/cm3) and an iron-like alloy of 8.3 g/cm3 after the NIST tables of mass attenuation.
 */
const BINS = [
  { share: 0.34, soft: 0.0268, bone: 0.128, metal: 3.0 },
  { share: 0.4, soft: 0.0206, bone: 0.0605, metal: 1.0 },
  { share: 0.26, soft: 0.0184, bone: 0.0428, metal: 0.494 },
] as const;

/** Soft parts vary slowly, so their lengths are taken on coarser pixels and interpolated. */
const COARSE = 4;

export interface Exposure {
  readonly beam: Beam;
  readonly solids: readonly RoomSolid[];
  /** Scattered over primary signal behind the thickest part. */
  readonly scatter: number;
  /** Detected quanta a pixel in the open field. */
  readonly quanta: number;
  readonly seed: number;
  readonly noise: boolean;
  /** How much of the slow brightness is levelled out, 0 to 1. */
  readonly levelling: number;
}

/** A box mean along rows, then columns, done twice: near enough to a Gaussian. */
export function blurred(data: Float32Array, columns: number, rows: number, radius: number): Float32Array {
  let from = data;
  for (let pass = 0; pass < 2; pass++) {
    const across = new Float32Array(from.length);
    for (let r = 0; r < rows; r++) boxLine(from, across, { start: r * columns, step: 1, count: columns, radius });
    const down = new Float32Array(from.length);
    for (let c = 0; c < columns; c++) boxLine(across, down, { start: c, step: columns, count: rows, radius });
    from = down;
  }
  return from;
}

function boxLine(
  from: Float32Array,
  to: Float32Array,
  line: { start: number; step: number; count: number; radius: number },
): void {
  const { start, step, count, radius } = line;
  const at = (i: number) => from[start + Math.min(count - 1, Math.max(0, i)) * step]!;
  let sum = 0;
  for (let i = -radius; i <= radius; i++) sum += at(i);
  for (let i = 0; i < count; i++) {
    to[start + i * step] = sum / (2 * radius + 1);
    sum += at(i + radius + 1) - at(i - radius);
  }
}

/** Standard normal numbers, drawn once a seed and read in a scrambled order. */
function noiseTable(seed: number): Float32Array {
  const c = chance(seed, 'quantum noise');
  const raw = new Float32Array(1 << 16);
  for (let i = 0; i < raw.length; i++) raw[i] = c.normal(0, 1, 6);
  return raw;
}

interface Lengths {
  readonly bone: Float32Array;
  readonly metal: Float32Array;
  /** Soft tissue and cancellous bone on the coarser detector. */
  readonly soft: Float32Array;
  readonly spongy: Float32Array;
  readonly coarse: Beam;
}

function lengths(e: Exposure): Lengths {
  const { beam } = e;
  const coarse = coarser(beam, COARSE);
  const few = coarse.columns * coarse.rows;
  const bone = new Float32Array(beam.columns * beam.rows);
  const metal = new Float32Array(beam.columns * beam.rows);
  const soft = new Float32Array(few);
  const trunk = new Float32Array(few);
  const spongy = new Float32Array(few);
  for (const s of e.solids) {
    if (s.bone) addPathLength(beam, s.mesh, s.bone, bone);
    if (s.metal) addPathLength(beam, s.mesh, s.metal, metal);
    if (s.soft) addPathLength(coarse, s.mesh, s.soft, soft);
    if (s.spongy) addPathLength(coarse, s.mesh, s.spongy, spongy);
    if (s.trunk) addPathLength(coarse, s.mesh, s.trunk, trunk);
  }
  const far = rayLengths(coarse);
  for (let r = 0; r < coarse.rows; r++)
    for (let c = 0; c < coarse.columns; c++) {
      const i = r * coarse.columns + c;
      const f = far(c, r);
      soft[i] = Math.max(soft[i]!, trunk[i]!) * f;
      spongy[i]! *= f;
    }
  return { bone, metal, soft: blurred(soft, coarse.columns, coarse.rows, 1), spongy, coarse };
}

/** Texels along a side of the tile of bone texture; a power of two. */
const TILE = 256;

/** Faint unevenness of cancellous bone: a tile of streaks along the limb. */
function trabeculae(seed: number): Float32Array {
  const c = chance(seed, 'trabeculae');
  const n = TILE;
  const raw = Float32Array.from({ length: n * n }, () => c.normal(0, 1));
  const streaks = new Float32Array(n * n);
  for (let y = 0; y < n; y++)
    for (let x = 0; x < n; x++) {
      let s = 0;
      for (let k = -4; k <= 4; k++)
        s += raw[((y + k + n) % n) * n + x]! + 0.6 * raw[((y + k + n) % n) * n + ((x + 1) % n)]!;
      streaks[y * n + x] = s / 4.2;
    }
  return streaks;
}

/** Share of the signal that passes lengths of soft tissue, bone and metal. */
function passed(soft: number, bone: number, metal: number): number {
  if (soft === 0 && bone === 0 && metal === 0) return 1;
  let signal = 0;
  for (const bin of BINS) signal += bin.share * Math.exp(-(bin.soft * soft + bin.bone * bone + bin.metal * metal));
  return signal;
}

/**
 * Detected picture of an exposure as optical density of the object: 0 in the open field, growing with what the ray
 * met. Three energy bins, scatter from the neighbourhood, detector blur and quantum noise are in it.
 */
export function exposed(e: Exposure): Float32Array {
  const { beam } = e;
  const { columns, rows } = beam;
  const { bone, metal, soft, spongy, coarse } = lengths(e);
  const primary = new Float32Array(columns * rows);
  const far = rayLengths(beam);
  const texture = trabeculae(e.seed);
  const cc = coarse.columns;
  // A texel is a third of a millimetre on the detector, whatever the pixels are.
  const texel = beam.spacingMm / 0.33;
  for (let r = 0; r < rows; r++) {
    const sr = Math.min(coarse.rows - 1.001, Math.max(0, (r - (COARSE - 1) / 2) / COARSE));
    const y0 = Math.floor(sr);
    const fy = sr - y0;
    const ty = ((r * texel) & (TILE - 1)) * TILE;
    for (let c = 0; c < columns; c++) {
      const i = r * columns + c;
      const sc = Math.min(cc - 1.001, Math.max(0, (c - (COARSE - 1) / 2) / COARSE));
      const x0 = Math.floor(sc);
      const fx = sc - x0;
      const k = y0 * cc + x0;
      const [w00, w10, w01, w11] = [(1 - fx) * (1 - fy), fx * (1 - fy), (1 - fx) * fy, fx * fy];
      const s = soft[k]! * w00 + soft[k + 1]! * w10 + soft[k + cc]! * w01 + soft[k + cc + 1]! * w11;
      let b = spongy[k]! * w00 + spongy[k + 1]! * w10 + spongy[k + cc]! * w01 + spongy[k + cc + 1]! * w11;
      let m = metal[i]!;
      if (b !== 0) b *= 1 + 0.075 * texture[ty + ((c * texel) & (TILE - 1))]!;
      if (bone[i] !== 0 || m !== 0) {
        const f = far(c, r);
        b += bone[i]! * f;
        m *= f;
      }
      primary[i] = passed(Math.max(0, s), Math.max(0, b), Math.max(0, m));
    }
  }
  return detected(e, primary);
}

function detected(e: Exposure, primary: Float32Array): Float32Array {
  const { columns, rows, spacingMm } = e.beam;
  const step = 16;
  const [lc, lr] = [Math.ceil(columns / step), Math.ceil(rows / step)];
  const small = new Float32Array(lc * lr);
  for (let r = 0; r < lr; r++)
    for (let c = 0; c < lc; c++)
      small[r * lc + c] = primary[Math.min(rows - 1, r * step + 8) * columns + Math.min(columns - 1, c * step + 8)]!;
  const veil = blurred(small, lc, lr, Math.max(1, Math.round(28 / (spacingMm * step))));
  const table = noiseTable(e.seed);
  const out = new Float32Array(columns * rows);
  const mask = table.length - 1;
  for (let r = 0; r < rows; r++) {
    const offset = Math.imul(r + 1, 2654435761) >>> 8;
    const vr = Math.min(lr - 1.001, Math.max(0, (r - 8) / step));
    const [y0, fy] = [Math.floor(vr), vr - Math.floor(vr)];
    const up = Math.max(0, r - 1) * columns;
    const dn = Math.min(rows - 1, r + 1) * columns;
    for (let c = 0; c < columns; c++) {
      const i = r * columns + c;
      const l = c > 0 ? c - 1 : 0;
      const rr = c < columns - 1 ? c + 1 : c;
      const p =
        0.4 * primary[i]! +
        0.15 * (primary[r * columns + l]! + primary[r * columns + rr]! + primary[up + c]! + primary[dn + c]!);
      const vc = Math.min(lc - 1.001, Math.max(0, (c - 8) / step));
      const x0 = Math.floor(vc);
      const fx = vc - x0;
      const k = y0 * lc + x0;
      const v =
        (veil[k]! * (1 - fx) + veil[k + 1]! * fx) * (1 - fy) + (veil[k + lc]! * (1 - fx) + veil[k + lc + 1]! * fx) * fy;
      // Scatter adds where the object is thick: it cannot exceed a share of what the neighbourhood passes.
      let signal = p + e.scatter * v * (1 - Math.min(1, v)) + 0.002;
      if (e.noise) {
        const j = (offset + c * 7) & mask;
        const g = 0.62 * table[j]! + 0.3 * (table[(j + 7) & mask]! + table[(j - 7) & mask]!);
        signal += g * Math.sqrt(signal / e.quanta);
      }
      out[i] = -Math.log(Math.max(signal, 1e-4));
    }
  }
  return levelled(out, e);
}

/** Dynamic range compression: takes a share of the slow brightness away, as a digital system does before it shows a film. */
function levelled(density: Float32Array, e: Exposure): Float32Array {
  const { columns, rows, spacingMm } = e.beam;
  if (e.levelling === 0) return density;
  const step = 16;
  const [lc, lr] = [Math.ceil(columns / step), Math.ceil(rows / step)];
  const small = new Float32Array(lc * lr);
  for (let r = 0; r < lr; r++)
    for (let c = 0; c < lc; c++)
      small[r * lc + c] = Math.min(
        3.2,
        density[Math.min(rows - 1, r * step + 8) * columns + Math.min(columns - 1, c * step + 8)]!,
      );
  const slow = blurred(small, lc, lr, Math.max(1, Math.round(32 / (spacingMm * step))));
  for (let r = 0; r < rows; r++) {
    const vr = Math.min(lr - 1.001, Math.max(0, (r - 8) / step));
    const [y0, fy] = [Math.floor(vr), vr - Math.floor(vr)];
    for (let c = 0; c < columns; c++) {
      const vc = Math.min(lc - 1.001, Math.max(0, (c - 8) / step));
      const x0 = Math.floor(vc);
      const fx = vc - x0;
      const k = y0 * lc + x0;
      const v =
        (slow[k]! * (1 - fx) + slow[k + 1]! * fx) * (1 - fy) + (slow[k + lc]! * (1 - fx) + slow[k + lc + 1]! * fx) * fy;
      density[r * columns + c]! -= e.levelling * v;
    }
  }
  return density;
}
