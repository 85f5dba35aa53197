import type { CannotTell } from "../../shared/findings/cannot-tell";
import type { LeakDownFinding, Outcome } from "../../shared/findings/finding";
import { isCannotTell } from "../../shared/findings/segment";
import type { Span } from "../../shared/findings/span";
import { mainChannel } from "../../shared/record/find-channel";
import type { Channel } from "../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../shared/record/sampling";
import type { SiteFacts } from "../../shared/site/site-facts";
import { absolutePascal, toAbsolute } from "../../shared/units/pressure";
import { cubicMetrePerSecond } from "../../shared/units/quantity";
import { valuesWithoutSpikes } from "../faults/observed";
import { sampleInterval } from "../faults/sample-interval";
import { gasConstant } from "../hydraulics/gas-constant";
import { quantiles } from "../numerics/order-statistics";
import { type Estimate, type PooledMean, pooledMean } from "../numerics/pooled-mean";
import { someValues } from "../numerics/some-values";
import { theilSen } from "../numerics/theil-sen";
import { gasHeat } from "../segments/gas-heat";
import { fallsToStart, idleRests } from "../segments/idle-rests";
import { leastNightFlow } from "../segments/night-flow";
import type { Detector, Evidence } from "./detector";
import { sideOf } from "./leak-down/side";

const kind = "leak-down" as const;
type Answer = Outcome<typeof kind>;

/**
 * Water lost while the pump rests and nothing is drawn: q = K d(1/p)/dt, pooled over all such stretches, or over whole rests where a loss is too large to leave any. K from metered draws, else from the tank of the
 * site facts. The meter tells the side: it sees a loss in the system, and does not see one back through the check valve.
 * The heat that the pump's run left in the gas is taken off. Wrong where the air of the room cools (about 1 % of absolute per 3 K), or where a small steady use passes for a leak.
 */
export const leakDown: Detector<typeof kind> = {
  kind,
  detect(evidence): Answer {
    const { record, faults, segments, site } = evidence;
    const pressure = mainChannel(record, "pressure");
    if (pressure === null) return open({ id: "no-pressure-channel", about: "leak", detail: {} });
    if (isCannotTell(segments.pump)) return open({ ...segments.pump, about: "leak" });
    if (isCannotTell(segments.draw)) return open({ ...segments.draw, about: "leak" });
    const step = sampleInterval(pressure.sampling)?.median ?? 0;
    const quiet = idleRests(segments.pump, segments.draw, 2 * step);
    const places = quiet.length >= LEAST_QUIET ? quiet : fallsToStart(segments.pump, segments.draw, 2 * step);
    const tooFew = () => open({ id: "nothing-to-see", about: "leak", detail: { idleStretches: places.length, wanted: LEAST_QUIET } });
    if (places.length < LEAST_QUIET) return tooFew();
    const values = valuesWithoutSpikes(pressure, faults);
    const empty = isCannotTell(segments.tank) ? undefined : segments.tank.emptiesAt?.value;
    const share = isCannotTell(segments.tank) ? 1 : segments.tank.heatShare;
    const heat = gasHeat(values, pressure.sampling, site.atmosphere.value, empty);
    const declinesAt = (time: number) => {
      const theta = heat(time);
      return places.map((place) => declineOf(pressure, values, theta, share, place, site.atmosphere.value));
    };
    const times = isCannotTell(segments.tank) ? HEAT_TIMES : aboutTime(segments.tank.heatTime);
    const tried = times.map((time) => pooledMean(declinesAt(time)));
    const pooled = isCannotTell(segments.tank) ? steadiest(tried) : holdingAll(tried);
    if (pooled === null) return tooFew();
    const [bottom, top] = quantiles(someValues(values), [0.02, 0.98]).map((p) => 1 / (p + site.atmosphere.value));
    const mattersFrom = (bottom - top) / SLOWEST_CYCLE;
    if (pooled.high < mattersFrom || (pooled.low <= 0 && pooled.value < mattersFrom)) return { kind, state: "clear", limits: [] };
    if (segments.draw.basis === "pressure" && !isOneLeak(pooled))
      return open({ id: "nothing-to-see", about: "leak", detail: { why: "may-be-draws" } });
    if (pooled.low <= 0) return open({ id: "record-too-short", about: "leak", detail: { idleStretches: places.length } });
    return found(
      evidence,
      pooled,
      pooled.kept.map((i) => places[i]),
      pressure,
    );
  },
};

const LEAST_QUIET = 2;

/** Falls of one leak: through one hole at about one pressure it takes the same every time. Share by which they may differ beside their own errors, how many must agree, and how near its interval must come. Our own choice. */
const ONE_LEAK = { between: 0.3, least: 4, known: 0.5 };

/** From end to end: a flow that is known no better is no measure of a leak. Our own choice. */
const WIDEST = 3;

/** Without a meter nobody knows that nothing was drawn: only what all falls have in common is a leak. */
const isOneLeak = ({ value, low, between, kept }: PooledMean) =>
  kept.length >= ONE_LEAK.least && between <= ONE_LEAK.between * value && low >= ONE_LEAK.known * value;

/** Time constants with which gas may give off its heat where the tank's own is not known, s; as in `gasHeatTime`. */
const HEAT_TIMES = [0, 5, 10, 20, 40, 80, 160, 320];

/**
 * A leak takes the same in every rest, however warm the pump left the gas: of several time constants the one under which the rests agree best, by the spread
 * of their declines. Gas that keeps its temperature unless another is plainly better.
 */
function steadiest(pooled: readonly (PooledMean | null)[]): PooledMean | null {
  const width = (mean: PooledMean | null) => (mean === null ? Number.POSITIVE_INFINITY : mean.high - mean.low);
  return pooled.reduce((best, mean) => (width(mean) < PLAINLY * width(best) ? mean : best));
}
const PLAINLY = 0.8; // of the spread: less is chance

/** A time constant read off the log is known to a third or so: the middle one first. */
const aboutTime = (time: number): number[] => (time === 0 ? [0] : [time, time / 1.4, 1.4 * time]);

/** The first mean with an interval that holds those of all. */
function holdingAll(pooled: readonly (PooledMean | null)[]): PooledMean | null {
  const means = pooled.filter((mean) => mean !== null);
  if (means.length === 0) return null;
  return { ...means[0], low: Math.min(...means.map(({ low }) => low)), high: Math.max(...means.map(({ high }) => high)) };
}

/** A loss that would take over half a day to bring the pump on by itself is nobody's trouble, and heat and cold do as much. Our own choice. */
const SLOWEST_CYCLE = 12 * 3600;

const open = (because: CannotTell): Answer => ({ kind, state: "cannot-tell", because: [because] });

const BLOCKS = 40; // means a stretch is taken by, so that pairs of them stay few

/** Rise of 1/p, of gas of one temperature, per second over one stretch by Theil-Sen on block means, 1/(Pa s). */
function declineOf(
  { sampling }: Channel,
  values: ArrayLike<number>,
  theta: Float64Array,
  share: number,
  { from, to }: Span,
  atmosphere: number,
): Estimate {
  const first = indexAtOrAfter(sampling, from);
  const end = indexAtOrAfter(sampling, to);
  const size = Math.max(1, Math.ceil((end - first) / BLOCKS));
  const times: number[] = [];
  const inverse: number[] = [];
  for (let block = first; block + size <= end; block += size) {
    let sum = 0;
    let n = 0;
    for (let i = block; i < block + size; i++) {
      if (Number.isNaN(values[i])) continue;
      sum += (values[i] + atmosphere) / (1 + share * theta[i]);
      n++;
    }
    if (n === 0) continue;
    times.push((timeAt(sampling, block) + timeAt(sampling, block + size - 1)) / 2);
    inverse.push(n / sum);
  }
  const line = times.length < 4 ? null : theilSen(times, inverse);
  if (line === null) return { value: Number.NaN, variance: Number.NaN };
  const flat = 1e-6 * inverse[0] * (1 / (times[times.length - 1] - times[0])); // a coarse channel that never moved has no spread of its own
  return { value: line.slope, variance: Math.max((line.high - line.low) / 3.92, flat) ** 2 };
}

function found(evidence: Evidence, decline: PooledMean, places: readonly Span[], pressure: Channel): Answer {
  const k = constantOf(evidence);
  if (k === null) {
    return open({ id: "site-fact-missing", about: "leak", detail: { missing: "tankVolume", risePerPaS: decline.value } });
  }
  const flow = {
    value: cubicMetrePerSecond(k.value * decline.value),
    low: cubicMetrePerSecond(k.low * decline.low),
    high: cubicMetrePerSecond(k.high * decline.high),
  };
  if (flow.high > WIDEST * flow.low)
    return open({ id: "nothing-to-see", about: "leak", detail: { why: "fall-too-wide", risePerPaS: decline.value } });
  const meter = mainChannel(evidence.record, "flow");
  const finding: LeakDownFinding = {
    kind,
    places,
    channels: meter === null ? [pressure.heading] : [pressure.heading, meter.heading],
    flow,
    side: sideOf(evidence, flow.value, places),
    minimumNightFlow: leastNightFlow(evidence.record, evidence.faults),
  };
  return { kind, state: "found", finding, limits: [] };
}

function constantOf({ segments: { tank }, site }: Evidence): { value: number; low: number; high: number } | null {
  if (!isCannotTell(tank)) return tank.give;
  const value = factConstant(site);
  if (value === null || site.precharge === null) return null;
  const doubt = Math.hypot(VOLUME_DOUBT, CHARGE_DOUBT / toAbsolute(site.precharge.value, site.atmosphere.value));
  return { value, low: value * (1 - doubt), high: value * (1 + doubt) };
}

/** A tank's nominal volume, and a charge as last read and since lost, Pa (some 2 psi a year). Common practice, no source. */
const VOLUME_DOUBT = 0.05;
const CHARGE_DOUBT = 20_000;

function factConstant({ tankVolume, precharge, atmosphere }: SiteFacts): number | null {
  if (tankVolume === null || precharge === null) return null;
  return gasConstant(tankVolume.value, absolutePascal(toAbsolute(precharge.value, atmosphere.value)));
}
