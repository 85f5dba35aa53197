import type { ClockLedger } from "./clock-ledger";
import { INTERVAL_QUESTION } from "./counted-clock";

const UNITS = [0.001, 0.01, 0.1, 1, 60, 3600];

/**
 * Several rows a stamp, because the file cut its stamps to whole seconds, minutes, hours or decimals: the rows are spread evenly over their unit, in place.
 * Only where most stamps stand several times and as often as each other: single repeated rows are duplicates.
 * @param times s, shape [n]; NaN rows stay     @param interval s, as the person or the lines above the table say it
 */
export function spreadCoarseStamps(times: Float64Array, interval: number | null, ledger: ClockLedger): void {
  const groups = findGroups(times);
  if (groups === null) return;
  const { starts, counts, instants } = groups;
  if (counts.length < 3) {
    countWithinStamps(times, groups, interval, ledger);
    return;
  }
  const usual = modeOf(counts.slice(1, -1).filter((c) => c > 1));
  if (usual === null) return;
  const even = counts.slice(1, -1).filter((c) => Math.abs(c - usual) <= 1).length;
  const unit = UNITS.find((u) => instants.every((t) => Math.abs(t / u - Math.round(t / u)) < 1e-3) && stepIs(instants, u));
  if (unit === undefined || even < 0.8 * (counts.length - 2)) return;
  for (let g = 0; g < counts.length; g++) {
    const slots = Math.max(usual, counts[g]);
    // the log may begin in the middle of its first unit: those rows are its last ones
    let slot = g === 0 ? slots - counts[g] : 0;
    for (let i = starts[g]; i < (starts[g + 1] ?? times.length); i++) if (!Number.isNaN(times[i])) times[i] += (unit * slot++) / slots;
  }
  ledger.notes.push({ kind: "coarse-stamps", unit, rows: usual });
}

type Groups = { readonly starts: readonly number[]; readonly counts: readonly number[]; readonly instants: readonly number[] };

/** So many rows of one stamp are no duplicates but a stamp too coarse to tell them apart, as a date without its time. */
const LEAST_IN_STAMP = 5;

/** One or two stamps for all rows: nothing shows how far apart the rows are; they are counted from their stamp and the interval is asked. */
function countWithinStamps(times: Float64Array, { counts }: Groups, interval: number | null, ledger: ClockLedger): void {
  if (counts.every((count) => count < LEAST_IN_STAMP)) return;
  let [last, at] = [Number.NaN, 0];
  for (let i = 0; i < times.length; i++) {
    if (Number.isNaN(times[i])) continue;
    at = times[i] === last ? at + 1 : 0;
    last = times[i];
    times[i] += at * (interval ?? 1);
  }
  ledger.notes.push({ kind: "one-stamp" });
  if (interval === null) ledger.questions.push(INTERVAL_QUESTION);
}

/** Runs of equal instants; null where too few rows repeat to be worth a look. */
function findGroups(times: Float64Array): Groups | null {
  let repeats = 0;
  for (let i = 1; i < times.length; i++) if (times[i] === times[i - 1]) repeats++;
  if (repeats < 0.4 * times.length) return null;
  const starts: number[] = [];
  const counts: number[] = [];
  const instants: number[] = [];
  for (let i = 0; i < times.length; i++) {
    if (Number.isNaN(times[i])) continue;
    if (instants.length > 0 && times[i] === instants[instants.length - 1]) counts[counts.length - 1]++;
    else {
      starts.push(i);
      counts.push(1);
      instants.push(times[i]);
    }
  }
  return { starts, counts, instants };
}

function modeOf(counts: readonly number[]): number | null {
  const seen = new Map<number, number>();
  for (const c of counts) seen.set(c, (seen.get(c) ?? 0) + 1);
  let best: number | null = null;
  for (const [count, times] of seen) if (best === null || times > (seen.get(best) ?? 0)) best = count;
  return best;
}

/** Nearly all steps from stamp to stamp are the unit itself. */
function stepIs(instants: readonly number[], unit: number): boolean {
  let fits = 0;
  for (let i = 1; i < instants.length; i++) if (Math.abs(instants[i] - instants[i - 1] - unit) < 1e-3 * unit) fits++;
  return fits >= 0.8 * (instants.length - 1);
}
