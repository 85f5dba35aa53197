import { channelsOf } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";

/**
 * A current loop at 3.6 mA, the lowest that still counts as a signal fault (NAMUR NE 43), reads 1/40 of the span under zero: 40 kPa on a 16 bar sensor, less
 * on all smaller ones. A broken loop reads a quarter of the span under zero. No discharge pressure lies there.
 */
export const FAULT_PRESSURE = -40_000; // Pa gauge

/** Gauge pressures below what a working current loop can mean. */
export function findBelowLiveZero(record: LogRecord): LogFault[] {
  return channelsOf(record, "pressure").flatMap(({ heading, sampling, values, quantity }) => {
    if (quantity !== "gaugePressure") return [];
    const faults: LogFault[] = [];
    for (let i = 0, first = -1; i <= values.length; i++) {
      const below = i < values.length && values[i] < FAULT_PRESSURE;
      if (below && first < 0) first = i;
      if (below || first < 0) continue;
      faults.push({
        kind: "below-live-zero",
        channel: heading,
        from: timeAt(sampling, first),
        to: timeAt(sampling, i - 1),
        note: "signal lost",
      });
      first = -1;
    }
    return faults;
  });
}
