import type { ClockLedger } from "./clock-ledger";

const MOST = 50;

/**
 * Finds where the clock was set back while the log ran on, so that two stretches of rows claim the same time: a fault, since which of the two is
 * right cannot be seen. A late row or a block in the wrong place fills a hole and is no such fault.
 * @param times s, file order, shape [n]
 */
export function findSetBack(times: Float64Array, ledger: ClockLedger): void {
  let found = 0;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < times.length && found < MOST; i++) {
    const t = times[i];
    if (Number.isNaN(t)) continue;
    if (t < high && t < times[i - 1]) {
      const overlap = overlapAt(times, i, high);
      if (overlap !== null) {
        found++;
        ledger.faults.push({
          kind: "clock-jump",
          from: t,
          to: overlap.to,
          note: overlap.same
            ? "a stretch of rows stands twice in the file"
            : "the clock was set back: two stretches of rows claim this time",
        });
        const text = overlap.same
          ? `A stretch of ${overlap.rows} rows stands twice in the file; the first is kept.`
          : `The clock was set back by ${Math.round(high - t)} s: ${overlap.rows} rows claim a time that is taken already.`;
        ledger.notes.push({ kind: "clock-jump", text });
      }
    }
    if (t > high) high = t;
  }
}

/** The rows from i on that stand in time among those just before; null where they fill a hole or are a few only. */
function overlapAt(
  times: Float64Array,
  i: number,
  high: number,
): { readonly rows: number; readonly to: number; readonly same: boolean } | null {
  let end = i;
  while (end + 1 < times.length && times[end + 1] > times[end] && times[end + 1] <= high) end++;
  let start = i - 1;
  while (start > 0 && times[start - 1] >= times[i] && times[start - 1] < times[start]) start--;
  let [among, equal, k] = [0, 0, i];
  for (let j = start; j < i && times[j] <= times[end]; j++) {
    if (times[j] < times[i]) continue;
    among++;
    while (k < end && times[k] < times[j]) k++;
    if (times[k] === times[j]) equal++;
  }
  const rows = end - i + 1;
  return rows < 4 || among < 4 ? null : { rows, to: times[end], same: equal >= 0.9 * Math.min(rows, among) };
}
