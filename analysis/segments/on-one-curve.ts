import type { Run } from "../../shared/findings/segment";
import type { Channel } from "../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../shared/record/sampling";
import { median, quantiles } from "../numerics/order-statistics";

const EDGE = 3; // samples after a start and before a stop, in which the pump comes up to speed or a meter settles
const LEAST_SAMPLES = 60;
const MOST_SAMPLES = 20_000;
const CLASSES = 12; // of pressure, with as many points in each
/** Spread of the flow at one pressure, of the median flow. A pump at one speed: its meter, the suction and some sampling apart; a drive gives at its set pressure whatever is drawn. */
const SAME_FLOW = 0.2;

/**
 * Whether the pump gave one flow at each pressure, as it does at one speed: then its runs lie along one pump curve. At changing speed the flow at the pressure that a drive
 * holds is what is drawn, from next to nothing to all it can give. Null with too few samples well inside runs.
 * @param flows m3/s of a meter before the tank, shape [n]; @param pressures Pa, of their own sampling
 */
export function onOneCurve(
  runs: readonly Run[],
  flow: Channel,
  flows: ArrayLike<number>,
  pressure: Channel,
  pressures: ArrayLike<number>,
): boolean | null {
  const points = pointsWithin(runs, flow, flows, pressure, pressures);
  if (points.length < LEAST_SAMPLES) return null;
  points.sort((a, b) => a.pressure - b.pressure);
  const usual = median(Float64Array.from(points, (point) => point.flow));
  const size = Math.floor(points.length / CLASSES);
  const spreads = Float64Array.from({ length: CLASSES }, (_, k) => {
    const [first, third] = quantiles(
      Float64Array.from(points.slice(k * size, (k + 1) * size), (point) => point.flow),
      [0.25, 0.75],
    );
    return (third - first) / 1.349;
  });
  return median(spreads) < SAME_FLOW * usual;
}

type Point = { readonly pressure: number; readonly flow: number };

function pointsWithin(
  runs: readonly Run[],
  { sampling }: Channel,
  flows: ArrayLike<number>,
  pressure: Channel,
  pressures: ArrayLike<number>,
): Point[] {
  const points: Point[] = [];
  const stride = Math.max(1, Math.floor(flows.length / MOST_SAMPLES));
  for (const { from, to } of runs) {
    const end = indexAtOrAfter(sampling, to) - EDGE;
    for (let i = indexAtOrAfter(sampling, from) + EDGE; i < end; i += stride) {
      const at = Math.min(pressures.length - 1, indexAtOrAfter(pressure.sampling, timeAt(sampling, i)));
      if (Number.isFinite(flows[i]) && Number.isFinite(pressures[at])) points.push({ pressure: pressures[at], flow: flows[i] });
    }
  }
  return points;
}
