import { mainChannel } from "../../../shared/record/find-channel";
import { sampleInterval } from "../../faults/sample-interval";
import { type Looks, levelFor, pumpOf } from "./sight";

/** A cycle shorter than this holds a run or a rest under the usual limit of a minute, as a rule. Common practice, no source. */
const CLOSE = 90; // s
const LEAST_GAPS = 10;
/** A start read off the pressure or the flow is known to a sample or two: so many must lie in a close gap. */
const SAMPLES_IN_GAP = 9;
const EDGES = [0.1, 0.5] as const;

export const startGapLooks: Pick<Looks, "start-gaps"> = {
  /**
   * How close the pump's starts follow each other. A start shows in the pressure alone, where the fall turns; the stop of a drive that holds its pressure
   * does not, so that there runs cannot be told short or long, but start to start can. The shortest cycle is T = 4 V/Q (at half the flow): starts come close
   * where the tank gives little water, or where the drive sleeps too soon.
   */
  "start-gaps"(sight) {
    const [pump, channel] = [pumpOf(sight), mainChannel(sight.record, "pressure")];
    if (pump?.mode !== "switching" || channel === null || pump.runs.length <= LEAST_GAPS) return null;
    const interval = sampleInterval(channel.sampling)?.median ?? 0;
    if ((pump.basis === "pressure" || pump.basis === "flow") && interval * SAMPLES_IN_GAP > CLOSE) return null;
    const gaps = pump.runs.slice(1).map((run, i) => run.from - pump.runs[i].from);
    const share = gaps.filter((gap) => gap < CLOSE).length / gaps.length;
    return { level: levelFor(share, EDGES, ["apart", "some-close", "close"]), numbers: { share, within: CLOSE, starts: pump.runs.length } };
  },
};
