import type { Sampling } from "../../shared/record/log-record";
import type { Samples } from "./body/row-store";
import { findSampling, medianInterval } from "./find-sampling";

/** A channel sampled more rarely than its neighbours, with instants of its own. */
export type SlowChannel = { readonly sampling: Sampling; readonly values: Samples };

/**
 * A channel with a value in every so manieth row only, at an even step: sampled more slowly than the others of its file, so that the blanks between are
 * no missing values. Null where most rows have a value or the values do not stand evenly. Times [n], s, asked for only where needed; values [n].
 */
export function findSlowChannel(timesOfRows: () => Float64Array, values: Samples): SlowChannel | null {
  if (isFilled(values)) return null;
  let count = 0;
  for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i])) count++;
  if (count < 5 || count * 2 > values.length + 1) return null;
  const times = timesOfRows();
  const own = new Float64Array(count);
  const kept = values instanceof Float64Array ? new Float64Array(count) : new Float32Array(count);
  let at = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    own[at] = times[i];
    kept[at++] = values[i];
  }
  const sampling = findSampling(own, null);
  // At the usual interval in one stretch only: blank before or after it, not slow.
  const slower = sampling.kind === "even" && sampling.step > 1.5 * medianInterval(times);
  return slower ? { sampling, values: kept } : null;
}

/** Whether of some hundreds of values all over the column far more than half are there: then it needs no count. */
function isFilled(values: Samples): boolean {
  const stride = Math.max(1, Math.floor(values.length / 997));
  let there = 0;
  let looked = 0;
  for (let i = 0; i < values.length; i += stride) {
    looked++;
    if (!Number.isNaN(values[i])) there++;
  }
  return looked > 500 && there > 0.7 * looked;
}
