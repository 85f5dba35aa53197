import type { SensorFinding } from "../../../shared/findings/finding";
import { channelsOf, mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../../shared/record/sampling";
import { cubicMetrePerSecond, metre } from "../../../shared/units/quantity";
import { valuesWithoutSpikes } from "../../faults/observed";
import { quadraticResistance } from "../../hydraulics/head-loss";
import { quantile } from "../../numerics/order-statistics";
import { robustLine } from "../../numerics/robust-line";
import type { Evidence } from "../detector";

type BetweenTwo = Pick<SensorFinding, "resistanceBetween" | "equivalentDistance">;
const UNKNOWN: BetweenTwo = { resistanceBetween: null, equivalentDistance: null };

const MOST_POINTS = 600; // the robust line looks at pairs
const LEAST_POINTS = 60;
/** Plastic pipe as far as the facts do not say (EPANET 2.2 manual, table 3.2): the wall hardly counts in a pipe of this size. */
const ROUGHNESS = metre(1.5e-6);

/**
 * Resistance between two pressure sensors from head loss against the square of flow, and the length of the stated pipe that would give it.
 * Null without two pressures and a flow, where the slope is not clear, or (distance) without the pipe's inside diameter. Fittings count as length.
 */
export function betweenTwo({ record, faults, site }: Evidence): BetweenTwo {
  const [a, b] = channelsOf(record, "pressure");
  const flow = mainChannel(record, "flow");
  if (a === undefined || b === undefined || flow === null) return UNKNOWN;
  const squares: number[] = [];
  const losses: number[] = [];
  const valuesA = valuesWithoutSpikes(a, faults);
  const valuesB = valuesWithoutSpikes(b, faults);
  const stride = Math.max(1, Math.ceil(sampleCount(a.sampling) / MOST_POINTS));
  for (let i = 0; i < sampleCount(a.sampling); i += stride) {
    const t = timeAt(a.sampling, i);
    const q = readAt(flow, flow.values, t);
    const loss = valuesA[i] - readAt(b, valuesB, t);
    if (Number.isNaN(q + loss)) continue;
    squares.push(q * Math.abs(q));
    losses.push(loss);
  }
  const line = squares.length < LEAST_POINTS ? null : robustLine(squares, losses);
  if (line === null || !(line.low > 0 || line.high < 0)) return UNKNOWN;
  const ends = [Math.abs(line.low), Math.abs(line.high)].sort((x, y) => x - y);
  const resistance = { value: Math.abs(line.slope), low: ends[0], high: ends[1] };
  const typical = Math.sqrt(
    quantile(
      squares.filter((s) => s > 0),
      0.75,
    ),
  );
  if (site.pipeInsideDiameter === null || !(typical > 0)) return { resistanceBetween: resistance, equivalentDistance: null };
  const perMetre = quadraticResistance(
    { length: metre(1), bore: site.pipeInsideDiameter.value, roughness: ROUGHNESS },
    cubicMetrePerSecond(typical),
  );
  const distance = { value: resistance.value / perMetre, low: resistance.low / perMetre, high: resistance.high / perMetre };
  return { resistanceBetween: resistance, equivalentDistance: distance };
}

/** Reading of a channel at an instant of another: the nearest sample that is not far off. NaN where there is none. */
function readAt({ sampling }: Channel, values: ArrayLike<number>, t: number): number {
  const next = indexAtOrAfter(sampling, t);
  if (sampling.kind === "on-change") return values[next < values.length && timeAt(sampling, next) === t ? next : next - 1] ?? Number.NaN;
  const nearest = next > 0 && (next >= values.length || t - timeAt(sampling, next - 1) < timeAt(sampling, next) - t) ? next - 1 : next;
  return nearest < values.length && Math.abs(timeAt(sampling, nearest) - t) < 30 ? values[nearest] : Number.NaN;
}
