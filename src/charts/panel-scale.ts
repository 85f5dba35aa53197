type Values = readonly (number | null)[];

/** A range with round ends and three to six steps that holds all values; `also` are levels that must lie in it. */
export function niceRange(low: Values, high: Values, also: readonly number[] = []): { from: number; to: number; step: number } {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const values of [low, high, also]) {
    for (const value of values) {
      if (value === null) continue;
      least = Math.min(least, value);
      most = Math.max(most, value);
    }
  }
  if (!(least <= most)) return { from: 0, to: 1, step: 1 };
  const span = most - least || Math.max(1, Math.abs(most));
  const rough = span / 4;
  const size = 10 ** Math.floor(Math.log10(rough));
  const step = size * ([1, 2, 5, 10].find((factor) => factor * size >= rough) ?? 10);
  const from = Math.floor(least / step) * step;
  const to = Math.ceil(most / step) * step;
  return { from, to: to > from ? to : from + step, step };
}

/** Decimals that tell two ticks of this step apart. */
export const tickDecimals = (step: number): number => Math.max(0, -Math.floor(Math.log10(step) + 1e-9));

/** One decimal of a picture's unit is finer than print. */
export const rounded = (value: number): number => Math.round(value * 10) / 10;
