const LANCZOS = [
  0.9999999999998099, 676.5203681218851, -1259.1392167224028, 771.3234287776531, -176.6150291621406, 12.507343278686905,
  -0.13857109526572012, 9.984369578019572e-6, 1.5056327351493116e-7,
];

/** Natural logarithm of the gamma function for x > 0. Lanczos with g = 7, nine terms; relative error near 1e-14. */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const z = x - 1;
  let sum = LANCZOS[0];
  for (let i = 1; i < LANCZOS.length; i++) sum += LANCZOS[i] / (z + i);
  const t = z + 7.5;
  return 0.9189385332046727 + (z + 0.5) * Math.log(t) - t + Math.log(sum);
}

/** Regularised lower incomplete gamma P(a, x), a > 0, x >= 0: series below a + 1, continued fraction (Lentz) above. */
export function lowerGamma(a: number, x: number): number {
  if (x <= 0) return 0;
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < 10_000 && term > sum * 1e-17; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return front * sum;
  }
  const fraction = continuedFraction(
    x + 1 - a,
    (i) => -i * (i - a),
    (i) => x + 2 * i + 1 - a,
  );
  return 1 - front * fraction;
}

/** 1 / (b0 + a1 / (b1 + a2 / (b2 + ...))) by the modified Lentz method. */
function continuedFraction(b0: number, a: (i: number) => number, b: (i: number) => number): number {
  const tiny = 1e-300;
  let c = 1 / tiny;
  let d = 1 / (b0 === 0 ? tiny : b0);
  let h = d;
  for (let i = 1; i < 100_000; i++) {
    const ai = a(i);
    const bi = b(i);
    d = 1 / nonZero(ai * d + bi, tiny);
    c = nonZero(bi + ai / c, tiny);
    const change = d * c;
    h *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return h;
}

const nonZero = (x: number, tiny: number): number => (Math.abs(x) < tiny ? tiny : x);

/** Regularised incomplete beta I_x(a, b), a, b > 0. */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  const numerator = (i: number): number => {
    const m = i >> 1;
    return i % 2 === 0
      ? (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
      : (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
  };
  return (
    (front *
      continuedFraction(
        1,
        (i) => numerator(i),
        () => 1,
      )) /
    a
  );
}
