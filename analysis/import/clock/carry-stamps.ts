import type { ClockLedger } from "./clock-ledger";

/** The steps between rows, as the stamps show them, may differ by so much. */
const MOST_DIFFERENT = 0.2;
/** Fewer stamps may stand evenly by chance. */
const FEWEST_STRETCHES = 4;
/** So many of the stretches have the same step. */
const MOST_ALIKE = 0.8;

/** Rows with a stamp, the steps of the rows between them, s, and the usual one; null where that is not the same from stamp to stamp. */
function stretchesOf(
  times: Float64Array,
): { readonly stamped: readonly number[]; readonly steps: readonly number[]; readonly usual: number } | null {
  const stamped: number[] = [];
  for (let i = 0; i < times.length; i++) if (!Number.isNaN(times[i])) stamped.push(i);
  const steps = stamped.slice(1).map((row, k) => (times[row] - times[stamped[k]]) / (row - stamped[k]));
  const usual = Float64Array.from(steps).sort()[steps.length >> 1];
  const alike = steps.filter((step) => isAlike(step, usual)).length;
  return usual > 0 && steps.length >= FEWEST_STRETCHES && alike >= MOST_ALIKE * steps.length ? { stamped, steps, usual } : null;
}

const isAlike = (step: number, usual: number) => Math.abs(step - usual) <= MOST_DIFFERENT * usual;

/** Whether most rows have no stamp: not so ("none"), "even" where those that have one show one step from row to row, "uneven" where they do not. */
export function sparseStamps(times: Float64Array, blank: number): "none" | "even" | "uneven" {
  if (2 * blank <= times.length) return "none";
  return stretchesOf(times) === null ? "uneven" : "even";
}

/**
 * Rows without a stamp of their own, in place: those between two stamps are spread evenly between them, those before the first and behind the last go on at
 * the usual step. Only where that step is the same from stamp to stamp, as of a logger that samples; else the rows stay without an instant.
 * @param times s, shape [n]; NaN where a row has no stamp
 */
export function carryStamps(times: Float64Array, ledger: ClockLedger): void {
  const stretches = stretchesOf(times);
  if (stretches === null || stretches.stamped.length === times.length) return;
  const { stamped, steps, usual } = stretches;
  const given = stamped.map((row) => times[row]);
  let k = 0;
  for (let i = 0; i < times.length; i++) {
    while (k + 1 < stamped.length && stamped[k + 1] <= i) k++;
    if (!Number.isNaN(times[i])) continue;
    const isBetween = i > stamped[k] && k + 1 < stamped.length && isAlike(steps[k], usual);
    times[i] = given[k] + (i - stamped[k]) * (isBetween ? steps[k] : usual);
  }
  ledger.notes.push({
    kind: "stamps-once",
    stamped: stamped.length,
    rows: times.length,
    step: Number(usual.toPrecision(6)),
  });
}
