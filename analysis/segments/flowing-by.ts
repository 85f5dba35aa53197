import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import { indexAtOrAfter } from "../../shared/record/sampling";
import type { Seconds } from "../../shared/units/quantity";
import { valuesWithoutSpikes } from "../faults/observed";
import { flowThresholds } from "./flow-thresholds";
import { heldInTime } from "./held-in-time";

/** Whether water flowed through the meter at an instant; null without a meter, or where its flow never rests. */
export function flowingBy(record: LogRecord, faults: readonly LogFault[]): ((t: Seconds) => boolean) | null {
  const flow = mainChannel(record, "flow");
  if (flow === null) return null;
  const values = valuesWithoutSpikes(flow, faults);
  const thresholds = flowThresholds(heldInTime(values, flow.sampling));
  if (thresholds === null) return null;
  return (t) => {
    const i = indexAtOrAfter(flow.sampling, t);
    return values[flow.sampling.kind === "on-change" && i > 0 ? i - 1 : Math.min(i, values.length - 1)] >= thresholds.at;
  };
}
