import type { Numbers } from "./order-statistics";

/** Sign changes, linear between values, in units of the index; at most `most`. */
export function zeroCrossings(values: Numbers, most = Number.POSITIVE_INFINITY): number[] {
  const found: number[] = [];
  for (let k = 0; k + 1 < values.length && found.length < most; k++) {
    if (values[k] === 0) found.push(k);
    else if (values[k] * values[k + 1] < 0) found.push(k + values[k] / (values[k] - values[k + 1]));
  }
  return found;
}

export type Regularity = {
  /** Mean over three standard deviations of the periods between crossings: above 1 is regular. */
  readonly index: number;
  /** Mean period in units of the index. */
  readonly period: number;
  readonly crossings: number;
};

/**
 * How regular an autocorrelation crosses zero, from its first eleven crossings (ten half periods). Says "regular", not "sustained": a damped
 * loop that noise keeps going is regular too. With fewer than five crossings there is no answer: null.
 * Source: Thornhill, Huang & Zhang, J. Process Control 13 (2003) 91-100.
 */
export function crossingRegularity(autocorrelation: Numbers): Regularity | null {
  const at = zeroCrossings(autocorrelation, 11);
  if (at.length < 5) return null;
  const periods = at.slice(1).map((z, i) => 2 * (z - at[i]));
  const mean = periods.reduce((sum, p) => sum + p, 0) / periods.length;
  const sd = Math.sqrt(periods.reduce((sum, p) => sum + (p - mean) ** 2, 0) / (periods.length - 1));
  return { index: sd > 0 ? mean / (3 * sd) : Number.POSITIVE_INFINITY, period: mean, crossings: at.length };
}

/**
 * Height of the first maximum of an autocorrelation over the line between its first two minima, divided by the depth of the first minimum
 * under the line from lag 0 to that maximum: near 1 for a sustained wave, small for a damped one. Null where they are not all there.
 * Source: Miao & Seborg, American Control Conference 1999.
 */
export function decayRatio(r: Numbers): number | null {
  const m1 = nextMinimum(r, 1);
  const top = m1 === null ? null : nextMaximum(r, m1 + 1);
  const m2 = top === null ? null : nextMinimum(r, top + 1);
  if (m1 === null || top === null || m2 === null) return null;
  const lower = r[m1] + ((r[m2] - r[m1]) * (top - m1)) / (m2 - m1);
  const upper = r[0] + ((r[top] - r[0]) * m1) / top;
  return (r[top] - lower) / (upper - r[m1]);
}

function nextMinimum(r: Numbers, from: number): number | null {
  for (let i = from; i + 1 < r.length; i++) if (r[i] < r[i - 1] && r[i] <= r[i + 1]) return i;
  return null;
}
function nextMaximum(r: Numbers, from: number): number | null {
  for (let i = from; i + 1 < r.length; i++) if (r[i] > r[i - 1] && r[i] >= r[i + 1]) return i;
  return null;
}
