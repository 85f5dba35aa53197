import type { ClockReading } from "../clock/clock-reading";
import { utf8Bytes } from "../platform";
import { stampScanner } from "./stamp-scanner";

/** Stamps with decimals may differ in their last bit by the order of additions. */
const SAME_INSTANT = 1e-6;
const LOOKED_AT = 300;

/**
 * The reading with its patterns only where they give, on the sample, what its `parse` gives: the byte reader is never trusted unseen.
 * @param sample cells of the clock's columns, a row each
 */
export function withProvenPatterns(clock: ClockReading, sample: readonly (readonly string[])[]): ClockReading {
  if (clock.patterns === null) return clock;
  const scanners = clock.patterns.map((pattern) => stampScanner(pattern, clock.unitSeconds));
  const stride = Math.max(1, Math.floor(sample.length / LOOKED_AT));
  for (let i = 0; i < sample.length; i += stride) {
    let sum = 0;
    for (let k = 0; k < scanners.length; k++) {
      const bytes = utf8Bytes(`${sample[i][k] ?? ""}\n`);
      const value = scanners[k]?.scan(bytes, 0) ?? Number.NaN;
      sum += scanners[k]?.end === bytes.length - 1 ? value : Number.NaN;
    }
    if (!Number.isNaN(sum) && !(Math.abs(sum - clock.parse(sample[i])) <= SAME_INSTANT)) return { ...clock, patterns: null };
  }
  return clock;
}
