import type { Numbers } from "./order-statistics";

const LOOKED_AT = 8192;
/** More levels than this among the values looked at are no steps that matter. */
const MOST_LEVELS = 1500;

/**
 * Step between neighbouring levels of a quantised column, in its own unit; 0 where values are not stepped. Looks at some thousands of values.
 * Wrong (too large) where only every second level occurs. Single-precision rounding of a level is not taken for a step.
 */
export function valueStep(values: Numbers): number {
  const stride = Math.max(1, Math.floor(values.length / LOOKED_AT));
  const seen = new Set<number>();
  let count = 0;
  for (let i = 0; i < values.length; i += stride) {
    if (!Number.isFinite(values[i])) continue;
    seen.add(values[i]);
    count++;
  }
  const levels = Float64Array.from(seen).sort();
  if (levels.length < 2 || levels.length > Math.min(MOST_LEVELS, 0.75 * count)) return 0;
  const rounding = 4e-7 * Math.max(Math.abs(levels[0]), Math.abs(levels[levels.length - 1]));
  let step = Number.POSITIVE_INFINITY;
  for (let i = 1; i < levels.length; i++) {
    const apart = levels[i] - levels[i - 1];
    if (apart > rounding && apart < step) step = apart;
  }
  return Number.isFinite(step) ? step : 0;
}
