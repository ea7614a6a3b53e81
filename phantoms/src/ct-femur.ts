import { between, ellipse, METAL, type Place, SPONGE, shell, turnedIn } from './ct-tissue.ts';
import { rad } from './space.ts';

/** Level of the epicondyles and of the back of the condyles over the joint line, mm. */
export const EPICONDYLES_MM = 26;
export const CONDYLES_MM = 17;

/** Bulges of the outline: at which direction (0 = lateral, counter-clockwise towards the front), how high, how wide. */
const BULGES = [
  { at: 0, high: 7, wide: 0.18 },
  { at: Math.PI - 0.14, high: 8, wide: 0.1 },
  { at: Math.PI + 0.24, high: 6, wide: 0.1 },
] as const;
const CORTEX_MM = 1.5;

const wrapped = (a: number): number => Math.atan2(Math.sin(a), Math.cos(a));

/** Distance of the femur's outline from its middle in a direction, at a level. */
function radius(direction: number, z: number): number {
  const [a, b] = [34, 27];
  const base = (a * b) / Math.hypot(b * Math.cos(direction), a * Math.sin(direction));
  const waist = 1 - 0.4 * Math.min(Math.max((z - 36) / 30, 0), 1);
  const out = Math.exp(-(((z - EPICONDYLES_MM) / 9) ** 2));
  return (
    base * waist + BULGES.reduce((s, g) => s + g.high * out * Math.exp(-((wrapped(direction - g.at) / g.wide) ** 2)), 0)
  );
}

const onOutline = (direction: number): Place => {
  const r = radius(direction, EPICONDYLES_MM);
  return [r * Math.cos(direction), r * Math.sin(direction)];
};

/** The direction within a range for which something is largest, by fine steps. */
function largest(from: number, to: number, of: (direction: number) => number): number {
  let best = from;
  for (let i = 0; i <= 4000; i++) {
    const direction = from + ((to - from) * i) / 4000;
    if (of(direction) > of(best)) best = direction;
  }
  return best;
}

/** Epicondyles of the model: the prominences, and the sulcus between the two medial ones. */
export const EPICONDYLES = {
  lateral: onOutline(largest(-0.3, 0.3, (d) => onOutline(d)[0])),
  peak: onOutline(largest(Math.PI - 0.4, Math.PI, (d) => -onOutline(d)[0])),
  sulcus: onOutline(largest(Math.PI - 0.1, Math.PI + 0.2, (d) => -radius(d, EPICONDYLES_MM))),
} as const;

/** Direction of the surgical epicondylar axis, medial to lateral, counter-clockwise from lateral, radians. */
export const AXIS_RAD = Math.atan2(
  EPICONDYLES.lateral[1] - EPICONDYLES.sulcus[1],
  EPICONDYLES.lateral[0] - EPICONDYLES.sulcus[0],
);
const MIDDLE: Place = [
  (EPICONDYLES.lateral[0] + EPICONDYLES.sulcus[0]) / 2,
  (EPICONDYLES.lateral[1] + EPICONDYLES.sulcus[1]) / 2,
];

const CONDYLE = { apart: 22, behind: 24, wide: 12, deep: 12, thick: 4 } as const;

/** The frame of a component that is turned by so many degrees against the axis, internal negative. */
const componentFrame = (externalDeg: number) => ({ middle: MIDDLE, turn: AXIS_RAD - rad(externalDeg) });

/** Most posterior points of the metal condyles, in the limb. */
export function condyleBacks(externalDeg: number): { readonly medial: Place; readonly lateral: Place } {
  const { middle, turn } = componentFrame(externalDeg);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const y = -CONDYLE.behind - CONDYLE.deep;
  const at = (x: number): Place => [middle[0] + c * x - s * y, middle[1] + s * x + c * y];
  return { medial: at(-CONDYLE.apart), lateral: at(CONDYLE.apart) };
}

/** Femur with its component at a place of the limb; null where there is neither. */
export function femurAt(x: number, y: number, z: number, externalDeg: number): number | null {
  const [u, v] = turnedIn([x, y], componentFrame(externalDeg));
  if (between(z, 4, 40) && Math.abs(u) < 22 && between(v, 27, 30.5)) return METAL;
  const round = 1 - ((z - CONDYLES_MM) / 16) ** 2;
  if (round > 0) {
    const k = Math.sqrt(round);
    for (const side of [-1, 1]) {
      const at: Place = [u - side * CONDYLE.apart, v + CONDYLE.behind];
      const outer = ellipse(at, CONDYLE.wide, CONDYLE.deep * k);
      if (outer >= 1) continue;
      return ellipse(at, CONDYLE.wide - CONDYLE.thick, Math.max(CONDYLE.deep * k - CONDYLE.thick, 0.5)) < 1
        ? SPONGE
        : METAL;
    }
  }
  const far = Math.hypot(x, y);
  // Beyond every bulge, or deep inside, whatever the direction.
  if (z < 10 || far > 48) return null;
  return far < 12 ? SPONGE : shell(far - radius(Math.atan2(y, x), z), CORTEX_MM);
}
