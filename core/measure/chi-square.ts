import { cannot, type Outcome, ok } from './outcome.ts';

/**
 * Chance that a chi-square variable with `degrees` degrees of freedom exceeds `q`: the p-value of an agreement test.
 * The regularised upper incomplete gamma function Q(degrees / 2, q / 2), by its power series below a + 1 and its
 * continued fraction (modified Lentz) above: NIST Digital Library of Mathematical Functions 8.7.1 and 8.9.2.
 * Inputs without unit; result in [0, 1]. Refuses degrees that are not a whole number from 1, and a negative or infinite q.
 */
export function chiSquareP(q: number, degrees: number): Outcome<number> {
  if (!Number.isInteger(degrees) || degrees < 1 || !(q >= 0) || !Number.isFinite(q))
    return cannot({
      code: 'chi-square-out-of-range',
      message: `A chi-square test needs a whole number of degrees from 1 and a sum of squares from 0; given ${degrees} and ${q}.`,
    });
  if (q === 0) return ok(1);
  const a = degrees / 2;
  const x = q / 2;
  const front = Math.exp(-x + a * Math.log(x) - logGammaOfHalves(degrees));
  return ok(x < a + 1 ? 1 - front * series(a, x) : front * fraction(a, x));
}

/** ln of the gamma function at n / 2, exact by its recurrence from 1 or from the square root of pi. */
function logGammaOfHalves(n: number): number {
  let [at, sum] = n % 2 === 0 ? [2, 0] : [1, Math.log(Math.PI) / 2];
  for (; at < n; at += 2) sum += Math.log(at / 2);
  return sum;
}

const TINY = 1e-300;

function series(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < 10_000 && term > sum * 1e-17; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

function fraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let h = d;
  for (let n = 1; n < 10_000; n++) {
    const step = -n * (n - a);
    b += 2;
    d = 1 / nonZero(step * d + b);
    c = nonZero(b + step / c);
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return h;
}

const nonZero = (v: number): number => (Math.abs(v) < TINY ? TINY : v);
