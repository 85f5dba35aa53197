import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import { type CubicMetrePerSecond, cubicMetrePerSecond } from "../../shared/units/quantity";
import { stretchesOf, valuesWithoutSpikes } from "../faults/observed";
import { median } from "../numerics/order-statistics";
import { overlaps } from "./idle-rests";
import { nightsOf } from "./night";
import { cumulativeVolume, volumeBetween } from "./volume";

/** The quiet hours of a night, local time; leakage work usually takes 02:00 to 04:00, which lies within. */
const QUIET = { from: 1, to: 5 };
const WINDOW = 3600; // s; a whole hour, so that single draws and the pump's own cycles even out
const STEP = 600; // s between windows

/** Least mean flow over an hour of each night's quiet hours; of several nights the median. Null without flow, without nights or below an hour of them. */
export function leastNightFlow(record: LogRecord, faults: readonly LogFault[]): CubicMetrePerSecond | null {
  const flow = mainChannel(record, "flow");
  const nights = nightsOf(record.clock, record.duration, QUIET.from, QUIET.to);
  if (flow === null || nights === null) return null;
  const values = valuesWithoutSpikes(flow, faults);
  const volume = cumulativeVolume(flow, values);
  const least = overlaps(nights, stretchesOf(flow, faults)).flatMap(({ from, to }) => {
    let lowest = Number.POSITIVE_INFINITY;
    for (let t: number = from; t + WINDOW <= to + 1; t += STEP) {
      lowest = Math.min(lowest, volumeBetween(flow.sampling, volume, values, t, t + WINDOW) / WINDOW);
    }
    return Number.isFinite(lowest) ? [lowest] : [];
  });
  return least.length === 0 ? null : cubicMetrePerSecond(median(least));
}
