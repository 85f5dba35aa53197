import type { PumpState, Run } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../shared/record/sampling";
import { valuesWithoutSpikes } from "../faults/observed";
import { median, quantile } from "../numerics/order-statistics";
import { GAUGE } from "./restart-limit";

const LEAST_STARTS = 4;
/** Waves may outnumber starts by far: so few of all lows must come down to the pressure told, else it is not that of this pump. */
const LOWEST = 0.02;
const LOW_PART = 0.4; // of the way from starting to stopping pressure

/**
 * Runs read from flow, with the pauses of a pump that ran on against a closed check valve taken out: a stopped pump starts again at its starting pressure, so
 * where flow comes back well above it the pump had not stopped: also where a loop that swings shuts the valve in each of its waves. Without pressure the runs stay as they are.
 * @param restart the pressure at which it is told to start again, Pa gauge; null: read from the lowest of the starts
 */
export function joinPauses(state: PumpState, record: LogRecord, faults: readonly LogFault[], restart: number | null): PumpState {
  const pressure = mainChannel(record, "pressure");
  if (pressure === null || state.runs.length < LEAST_STARTS) return state;
  const values = valuesWithoutSpikes(pressure, faults);
  const atStart = state.runs.map((run) => pressureAt(pressure, values, run.from));
  const starting = quantile(atStart, 0.2);
  const stopping = median(state.runs.map((run) => pressureAt(pressure, values, run.to)));
  if (!(stopping > starting)) return state;
  const told = restart !== null && quantile(atStart, LOWEST) < restart + GAUGE ? restart + GAUGE : null;
  const limit = told ?? starting + LOW_PART * (stopping - starting);
  const runs: Run[] = [];
  state.runs.forEach((run, i) => {
    const last = runs.at(-1);
    const unbroken = state.observed.some((span) => last !== undefined && span.from <= last.to && run.from <= span.to);
    if (last !== undefined && atStart[i] > limit && unbroken)
      runs[runs.length - 1] = { from: last.from, to: run.to, complete: last.complete && run.complete };
    else runs.push(run);
  });
  return { ...state, runs };
}

/** Lowest pressure of the three samples about an instant, Pa gauge; NaN outside the channel. */
function pressureAt({ sampling }: Channel, values: ArrayLike<number>, t: number): number {
  const at = indexAtOrAfter(sampling, t);
  let lowest = Number.NaN;
  for (let i = Math.max(0, at - 1); i <= Math.min(values.length - 1, at + 1); i++) {
    if (Math.abs(timeAt(sampling, i) - t) < 60 && !(values[i] >= lowest)) lowest = Number.isNaN(values[i]) ? lowest : values[i];
  }
  return lowest;
}
