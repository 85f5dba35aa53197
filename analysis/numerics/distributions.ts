import { incompleteBeta, lowerGamma } from "./special-functions";

/** P(Z <= z) of the standard normal. */
export const normalCdf = (z: number): number => (z < 0 ? (1 - lowerGamma(0.5, (z * z) / 2)) / 2 : (1 + lowerGamma(0.5, (z * z) / 2)) / 2);

/** One level is asked for thousands of times in a row. */
let lastAsked = { p: 0.5, z: 0 };

/** Quantile of the standard normal, 0 < p < 1: Acklam's rational start, two steps of Halley. */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`normalQuantile: p ${p}`);
  if (p === lastAsked.p) return lastAsked.z;
  let z = normalStart(p);
  for (let i = 0; i < 2; i++) {
    const e = (normalCdf(z) - p) * Math.sqrt(2 * Math.PI) * Math.exp((z * z) / 2);
    z -= e / (1 + (z * e) / 2);
  }
  lastAsked = { p, z };
  return z;
}

function normalStart(p: number): number {
  if (p > 0.5) return -normalStart(1 - p);
  if (p < 0.02425) {
    const q = Math.sqrt(-2 * Math.log(p));
    return (
      (((((-7.784894002430293e-3 * q - 0.3223964580411365) * q - 2.400758277161838) * q - 2.549732539343734) * q + 4.374664141464968) * q +
        2.938163982698783) /
      ((((7.784695709041462e-3 * q + 0.3224671290700398) * q + 2.445134137142996) * q + 3.754408661907416) * q + 1)
    );
  }
  const q = p - 0.5;
  const r = q * q;
  return (
    ((((((-39.69683028665376 * r + 220.9460984245205) * r - 275.9285104469687) * r + 138.357751867269) * r - 30.66479806614716) * r +
      2.506628277459239) *
      q) /
    (((((-54.47609879822406 * r + 161.5858368580409) * r - 155.6989798598866) * r + 66.80131188771972) * r - 13.28068155288572) * r + 1)
  );
}

/** Quantile of chi-square with `df` degrees of freedom, 0 < p < 1. */
export const chiSquareQuantile = (p: number, df: number): number => invert((x) => lowerGamma(df / 2, x / 2), p, df);

/** Quantile of Student's t with `df` > 0 degrees of freedom, 0 < p < 1. */
export function studentQuantile(p: number, df: number): number {
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentQuantile(1 - p, df);
  return invert((t) => 1 - incompleteBeta(df / (df + t * t), df / 2, 0.5) / 2, p, 2);
}

/** Quantile of F with a and b degrees of freedom, 0 < p < 1. */
export const fQuantile = (p: number, a: number, b: number): number =>
  invert((x) => incompleteBeta((a * x) / (a * x + b), a / 2, b / 2), p, 1);

/** Exact 95 % interval of the mean of a Poisson count (Garwood 1936): chi-square quantiles at 2k and 2k + 2 degrees of freedom. */
export function poissonInterval(count: number, level = 0.95): { readonly low: number; readonly high: number } {
  if (!(count >= 0 && Number.isInteger(count))) throw new RangeError(`poissonInterval: count ${count}`);
  const tail = (1 - level) / 2;
  return { low: count === 0 ? 0 : chiSquareQuantile(tail, 2 * count) / 2, high: chiSquareQuantile(1 - tail, 2 * count + 2) / 2 };
}

/**
 * x >= 0 with cdf(x) = p for a rising cdf, 1e-15 relative: doubled until above, then by inverse quadratic interpolation where that is safe, else by halving.
 * Source: Chandrupatla, Advances in Engineering Software 28 (1997) 145.
 */
function invert(cdf: (x: number) => number, p: number, start: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`quantile: p ${p}`);
  let [x1, f1] = [start, cdf(start) - p];
  while (f1 < 0) {
    x1 *= 2;
    f1 = cdf(x1) - p;
  }
  let [x2, f2] = [0, -p];
  let t = 0.5;
  for (let i = 0; i < 200; i++) {
    const x = x1 + t * (x2 - x1);
    const f = cdf(x) - p;
    let [x3, f3] = [x1, f1];
    if (f > 0 !== f1 > 0) {
      [x3, f3] = [x2, f2];
      [x2, f2] = [x1, f1];
    }
    [x1, f1] = [x, f];
    const nearest = Math.abs(f2) < Math.abs(f1) ? x2 : x1;
    const least = (5e-16 * nearest) / Math.abs(x2 - x1);
    if (f1 === 0 || f2 === 0 || !(least < 0.5)) return f1 === 0 ? x1 : nearest;
    const xi = (x1 - x2) / (x3 - x2);
    const phi = (f1 - f2) / (f3 - f2);
    const safe = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
    t = safe ? (f1 / (f2 - f1)) * (f3 / (f2 - f3)) + ((x3 - x1) / (x2 - x1)) * (f1 / (f3 - f1)) * (f2 / (f3 - f2)) : 0.5;
    t = Math.min(1 - least, Math.max(least, t));
  }
  return x1;
}
