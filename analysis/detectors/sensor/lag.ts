import { isCannotTell } from "../../../shared/findings/segment";
import { channelsOf } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../../shared/record/sampling";
import type { Measured } from "../../../shared/units/measured";
import { type Seconds, seconds } from "../../../shared/units/quantity";
import { valuesWithoutSpikes } from "../../faults/observed";
import { sampleInterval } from "../../faults/sample-interval";
import { medianInterval } from "../../numerics/median-interval";
import { leastSquaresLine } from "../../numerics/regression";
import { noiseOf } from "../../segments/pressure-noise";
import { knownPump, restsOf } from "../../segments/starts";
import type { Evidence } from "../detector";

const LEAST_ONSETS = 5;
const SIDE = 40; // samples on either side
const LEAST_SAMPLES = 10;
const STANDS_OUT = 6; // noise spreads by which the pressure must fall within the side

/**
 * Lag of the pressure behind the flow: while the pump rests, a draw that begins bends the pressure down at once; a first-order lag tau shifts that bend by tau
 * (its answer to a ramp once the first two or three tau are over). Median over all such draws. Only with a meter after the tank; the two channels share a clock or the offset counts as lag.
 * @returns null with fewer than five clear drawStarts
 */
export function lagBehindFlow({ record, faults, segments, site }: Evidence, pressure: Channel): Measured<Seconds> | null {
  const { draw } = segments;
  const pump = knownPump(segments);
  const step = sampleInterval(pressure.sampling)?.median ?? 0;
  if (pump === null || step === 0 || isCannotTell(draw) || draw.basis !== "flow") return null;
  if (channelsOf(record, "flow")[0]?.sampling.kind === "on-change") return null;
  const values = valuesWithoutSpikes(pressure, faults);
  const noise = noiseOf(values);
  const rests = restsOf(pump);
  const lags: number[] = [];
  let k = 0;
  let earlier = Number.NEGATIVE_INFINITY;
  for (const { from, to } of draw.draws) {
    while (k < rests.length && rests[k].to < from) k++;
    const side = SIDE * step;
    const alone = from - earlier > side / 2 && to - from > LEAST_SAMPLES * step;
    earlier = to;
    if (k >= rests.length || rests[k].from > from - side / 4 || !alone) continue;
    const lag = bendAfter(pressure, values, from, Math.min(from + side, rests[k].to - step, to), noise, site.atmosphere.value);
    if (lag !== null) lags.push(lag);
  }
  if (lags.length < LEAST_ONSETS) return null;
  const { value, low, high } = medianInterval(lags);
  return { value: seconds(Math.max(0, value)), low: seconds(Math.max(0, low)), high: seconds(Math.max(0, high)) };
}

/** Where the straight line of the rest before and that of the draw's second half meet, s after the drawStart; in 1/p, which a steady draw makes straight. */
function bendAfter(
  { sampling }: Channel,
  values: ArrayLike<number>,
  drawStart: number,
  until: number,
  noise: number,
  atmosphere: number,
): number | null {
  const at = indexAtOrAfter(sampling, drawStart);
  const end = indexAtOrAfter(sampling, until);
  if (end - at < LEAST_SAMPLES || !(values[at] - values[end - 1] > STANDS_OUT * noise)) return null;
  const line = (first: number, last: number) => {
    const indexes = Array.from({ length: last - first }, (_, k) => first + k);
    return leastSquaresLine(
      indexes.map((i) => timeAt(sampling, i) - drawStart),
      indexes.map((i) => 1 / (values[i] + atmosphere)),
    );
  };
  const before = line(Math.max(0, at - SIDE), at);
  const drawing = line((at + end) >> 1, end);
  if (before === null || drawing === null || !(drawing.slope > 4 * Math.hypot(drawing.slopeSd, before.slopeSd))) return null;
  return (before.intercept - drawing.intercept) / (drawing.slope - before.slope);
}
