import type { ClockLedger } from "./clock-ledger";
import type { Alike } from "./clock-set-back";
import { medianStep } from "./median-step";

/** Fewer rows of one stamp are repeated rows. */
const LEAST = 4;

/**
 * A clock that stood still while the log ran on, and then leapt to the right time: the rows of its one stamp differ, and the usual step from row to
 * row fills the hole behind them to the row. They are placed so, in place. Rows that are alike, or that fill no hole, are left as they are.
 * @param times s, file order (oldest first), shape [n]
 */
export function followStillClock(times: Float64Array, alike: Alike, ledger: ClockLedger): void {
  const step = medianStep(times);
  if (!(step > 0)) return;
  for (let i = 0; i < times.length; i++) {
    let end = i;
    while (end + 1 < times.length && times[end + 1] === times[i]) end++;
    const rows = end - i + 1;
    if (rows >= LEAST && Math.abs(times[end + 1] - times[i] - rows * step) <= 0.05 * step && !alike(i, i + 1)) {
      const stood = times[i];
      for (let k = 1; k < rows; k++) times[i + k] = stood + k * step;
      ledger.faults.push({ kind: "clock-jump", from: stood, to: times[end], note: { kind: "stood-still" } });
      ledger.notes.push({ kind: "stood-still", at: stood, rows });
    }
    i = end;
  }
}
