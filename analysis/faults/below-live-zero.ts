import { channelsOf } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import { columnExtent } from "../numerics/column-extent";

/**
 * Nothing lies under absolute vacuum. A loop without current (0 mA on 4 to 20 mA) reads a quarter of the span under zero, which passes this line from
 * 4 bar of span on; a pump's suction side may truly lie a little under zero.
 */
export const FAULT_PRESSURE = -101_325; // Pa gauge

/** Gauge pressures that no water can have: the signal was lost. */
export function findBelowLiveZero(record: LogRecord): LogFault[] {
  return channelsOf(record, "pressure").flatMap(({ heading, sampling, values, quantity }) => {
    if (quantity !== "gaugePressure" || !(columnExtent(values).low < FAULT_PRESSURE)) return [];
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
        note: { kind: "signal-lost" },
      });
      first = -1;
    }
    return faults;
  });
}
