import { mainChannel } from "../../../shared/record/find-channel";
import { sampleAt, type Trace } from "../../model/fit/trace";
import { quantile } from "../../numerics/order-statistics";
import { restsOf } from "../../segments/starts";
import { traceIn } from "./at-work";
import { drawsOf, pumpOf, type Sight } from "./sight";

/** The least of the flow is one and the same: between these shares of the record it differs by less than so much of itself. */
const OF_FLOW = { from: 0.02, to: 0.125, within: 0.15 };
/** The rate of a fall is known less well than a flow. */
const OF_FALLS = { from: 0.05, to: 0.25, within: 0.25 };
const LEAST_FALLS = 24;
/** A rest is looked at piece by piece, since a draw may take up part of it: s, and samples at either end whose mean is taken. */
const PIECE = { seconds: 40, samples: 8 };

/** How fast 1/p(abs) rises in each piece of each rest, 1/(Pa s): the flow out of the tank is K times that (Boyle). */
function fallsOf(trace: Trace, sight: Sight): number[] {
  const pump = pumpOf(sight);
  const { times, pressure, interval } = trace;
  const air = sight.site.atmosphere.value;
  const size = Math.max(PIECE.samples, Math.ceil(PIECE.seconds / interval));
  const half = size >> 1;
  const inverse = (first: number, end: number) => {
    let sum = 0;
    for (let i = first; i < end; i++) sum += 1 / (pressure[i] + air);
    return sum / (end - first);
  };
  return (pump === null ? [] : restsOf(pump)).flatMap(({ from, to }) => {
    const falls: number[] = [];
    const end = sampleAt(trace, to) - 1;
    for (let i = sampleAt(trace, from) + 1; i + 2 * half <= end; i += 2 * half) {
      const rate = (inverse(i + half, i + 2 * half) - inverse(i, i + half)) / (times[i + half] - times[i]);
      if (!Number.isNaN(rate)) falls.push(rate);
    }
    return falls;
  });
}

const isFloor = (values: ArrayLike<number>, { from, to, within }: typeof OF_FLOW): boolean => {
  const [least, more] = [quantile(values, from), quantile(values, to)];
  return least > 0 && more - least < within * more;
};

/** Whether the least that is drawn is the same again and again, as a leak is: by the meter, else by how fast the tank empties at rest. */
export function hasFloor(sight: Sight): boolean {
  const [draws, trace, flow] = [drawsOf(sight), traceIn(sight), mainChannel(sight.record, "flow")];
  if (draws?.basis === "flow") return flow !== null && flow.sampling.kind !== "on-change" && isFloor(flow.values, OF_FLOW);
  const falls = trace === null ? [] : fallsOf(trace, sight);
  return falls.length >= LEAST_FALLS && isFloor(falls, OF_FALLS);
}
