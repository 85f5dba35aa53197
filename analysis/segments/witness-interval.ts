import type { PumpState } from "../../shared/findings/segment";
import { spanLength } from "../../shared/findings/span";
import type { LogRecord } from "../../shared/record/log-record";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { sampleInterval } from "../faults/sample-interval";
import { scanInterval } from "../faults/scan-interval";
import { median } from "../numerics/order-statistics";
import { restsOf } from "./starts";

/** Interval of the pump's witness, or of the scan of a log on change; null where that misses nothing. The slowest where several stand together. */
export function witnessInterval(record: LogRecord, pump: PumpState): Seconds | null {
  const headings = pump.pumps.length > 0 ? pump.pumps.map((p) => p.channel) : [pump.channel];
  const intervals = record.channels
    .filter((c) => headings.includes(c.heading))
    .map((c) => sampleInterval(c.sampling)?.median ?? scanInterval(c.sampling) ?? 0);
  const slowest = intervals.reduce<number>((most, step) => Math.max(most, step), 0);
  return slowest > 0 ? seconds(slowest) : null;
}

/** Read from the pressure's turns a run needs five samples; where most that were seen have fewer, others were missed. */
export const SAMPLES_FOR_PRESSURE = 5;

/** Samples that the usual whole run holds, where the turns of the pressure tell of it; Infinity by any other witness, or where none was seen whole. */
export function samplesOfRun(record: LogRecord, pump: PumpState): number {
  const interval = witnessInterval(record, pump);
  const lengths = pump.runs.filter((run) => run.complete).map(spanLength);
  return pump.basis !== "pressure" || interval === null || lengths.length === 0 ? Number.POSITIVE_INFINITY : median(lengths) / interval;
}

/** A run of fewer may fall between two samples and not be seen at all. */
const TWO_SAMPLES = 2;
const SOME = { share: 0.05, least: 3 };

/** Whether a good few of the runs and rests seen last under two samples: then others like them fell between two, and two runs passed for one. */
export function othersFellBetween(record: LogRecord, pump: PumpState): boolean {
  const interval = witnessInterval(record, pump);
  if (interval === null) return false;
  const spans = [...pump.runs.filter((run) => run.complete), ...restsOf(pump)];
  const brief = spans.filter((span) => spanLength(span) < TWO_SAMPLES * interval).length;
  return brief >= Math.max(SOME.least, SOME.share * spans.length);
}
