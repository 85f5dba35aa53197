import { seconds } from "../../../shared/units/quantity";
import { buildPyramid } from "../../charts/pyramid";
import type { DrawnChannel } from "../../charts/trace-series";
import type { Predicted } from "../../state/visit-state";
import type { Detail } from "../../worker/messages";

/** A prediction as the trace draws its channels: at every zoom, and sample by sample. */
export type PredictedChannel = { readonly drawn: DrawnChannel; readonly samples: Predicted };

/** Null where there is nothing to draw. O(samples). */
export function predictedChannel(predicted: Predicted | null, heading: string): PredictedChannel | null {
  if (predicted === null || predicted.times.length < 2) return null;
  return { drawn: channelOf(predicted, heading), samples: predicted };
}

/** A channel without a value. */
export const emptyChannel = (heading: string): DrawnChannel =>
  channelOf({ times: Float64Array.of(0, 1), pressure: Float32Array.of(Number.NaN, Number.NaN) }, heading);

function channelOf({ times, pressure }: Predicted, heading: string): DrawnChannel {
  const step = (times[times.length - 1] - times[0]) / (times.length - 1);
  const sampling = { kind: "even", start: seconds(times[0]), step: seconds(step), count: times.length } as const;
  const trace = {
    heading,
    role: "pressure",
    position: null,
    unitInFile: null,
    quantity: "gaugePressure",
    samples: times.length,
    interval: step,
    step: 0,
    held: false,
    even: true,
    pyramid: buildPyramid({ sampling, values: pressure }, step),
  } as const;
  return { trace, gaps: [] };
}

/** The samples of a prediction over a window and one more on either side. */
export function samplesWithin({ times, pressure }: Predicted, from: number, to: number): Detail["channels"][number] {
  const first = Math.max(0, indexFrom(times, from) - 1);
  const end = Math.min(times.length, indexFrom(times, to) + 1);
  return { times: times.subarray(first, end), values: pressure.subarray(first, end) };
}

function indexFrom(times: Float64Array, t: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (times[middle] < t) low = middle + 1;
    else high = middle;
  }
  return low;
}
