/** Seeded chance: the same seed gives the same numbers on every machine. */
export type Random = {
  /** Uniform in [0, 1). */
  next(): number;
  /** Standard normal. */
  normal(): number;
  /** Whole number from 0 up to, not including, n. */
  below(n: number): number;
};

/**
 * A generator that starts from a whole number: xoshiro128** (Blackman & Vigna 2018), its state filled by splitmix32.
 * Normal numbers by the polar method (Marsaglia & Bray 1964).
 */
export function seededRandom(seed: number): Random {
  const next = xoshiro(seed);
  let spare = Number.NaN;
  const normal = (): number => {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    let u = 0;
    let v = 0;
    let s = 0;
    do {
      u = 2 * next() - 1;
      v = 2 * next() - 1;
      s = u * u + v * v;
    } while (s >= 1 || s === 0);
    const factor = Math.sqrt((-2 * Math.log(s)) / s);
    spare = v * factor;
    return u * factor;
  };
  return { next, normal, below: (n) => Math.floor(next() * n) };
}

function xoshiro(seed: number): () => number {
  let fill = seed | 0;
  const splitmix = (): number => {
    fill = (fill + 0x9e3779b9) | 0;
    let z = fill;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return z ^ (z >>> 15);
  };
  let [a, b, c, d] = [splitmix(), splitmix(), splitmix(), splitmix()];
  const step = (): number => {
    const scrambled = Math.imul(rotate(Math.imul(b, 5), 7), 9);
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = rotate(d, 11);
    return scrambled >>> 0;
  };
  // 53 bits from two draws, so that a long record has no visible grain.
  return () => ((step() >>> 5) * 67108864 + (step() >>> 6)) / 9007199254740992;
}

const rotate = (x: number, k: number): number => (x << k) | (x >>> (32 - k));
