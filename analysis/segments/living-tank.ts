import type { CannotTell } from "../../shared/findings/cannot-tell";
import { isCannotTell, type LivingTank, type MeterPlace, type PumpState } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import type { SiteFacts } from "../../shared/site/site-facts";
import { cubicMetre, seconds } from "../../shared/units/quantity";
import { stretchesOf, valuesWithoutSpikes } from "../faults/observed";
import { median, quantiles } from "../numerics/order-statistics";
import { pooledMean } from "../numerics/pooled-mean";
import { someValues } from "../numerics/some-values";
import { withoutTremble } from "./flow-thresholds";
import { gasHeatTime } from "./gas-heat-time";
import { levelStep, noiseOf } from "./pressure-noise";
import { ownConstant } from "./tank-constant";
import { departureOf, kneeOf, type TankLine } from "./tank-knee";
import { doubtOfVolume, frictionOf, leakSlope, slopeOfTrace, usualSlope, withoutFriction } from "./tank-slope";
import { type Gauge, type Meter, type TankTrace, tankTraces } from "./tank-windows";
import { cumulativeVolume } from "./volume";

/**
 * The tank as the log shows it: while the pump rests and metered water leaves the tank, 1/p(abs) rises by 1/K per volume drawn (Boyle), K = p0 Vt.
 * One slope a rest, pooled over rests with the scatter between them. Where 1/p leaves the line upward and the flow did not rise, the tank is empty.
 * What gas, walls and pipes leave open stands in the interval. Wrong where the meter's factor is wrong (K by the same factor), where unmetered water leaves between
 * tank and meter in bursts, and where pipes give more than is allowed for below.
 */
export function findLivingTank(
  record: LogRecord,
  faults: readonly LogFault[],
  pump: PumpState | CannotTell,
  place: MeterPlace,
  site: SiteFacts,
): LivingTank | CannotTell {
  const about = "tank" as const;
  const pressure = mainChannel(record, "pressure");
  const flow = mainChannel(record, "flow");
  if (pressure === null) return { id: "no-pressure-channel", about, detail: { missing: "pressure" } };
  if (flow === null) return { id: "no-flow-channel", about, detail: { missing: "flow", wanted: "after-tank" } };
  if (place.place === "before-tank") return { id: "nothing-to-see", about, detail: { why: "meter-before-tank" } };
  if (isCannotTell(pump)) return { ...pump, about };
  if (place.place === null) return { id: "site-fact-missing", about, detail: { missing: "flowMeter" } };
  const values = valuesWithoutSpikes(pressure, faults);
  const gauge: Gauge = { channel: pressure, values, stretches: stretchesOf(pressure, faults), atmosphere: site.atmosphere.value };
  const flows = withoutTremble(valuesWithoutSpikes(flow, faults));
  const meter: Meter = { channel: flow, values: flows, volume: cumulativeVolume(flow, flows), stretches: stretchesOf(flow, faults) };
  const spread = Math.hypot(noiseOf(values), levelStep(values) / Math.sqrt(12));
  return fromTraces(
    tankTraces(pump, gauge, meter),
    spread,
    gauge,
    pump.basis === "pressure" ? DOUBT.pressure : DOUBT.drive,
    quantiles(someValues(flows), [0.999])[0],
  );
}

const LEAST_RESTS = 2;
const NORMAL_95 = 1.96; // standard deviations of the normal distribution that hold 95 %
/**
 * What stays uncertain however many rests there are. The meter itself: 2 % in the upper flow range when new, twice that in service (class 2 of ISO 4064, from
 * memory); gas that is not quite ideal adds little. More where the rests were told by the pressure itself.
 */
const DOUBT = { drive: 0.04, pressure: 0.05 };
/**
 * Pipes, hoses and trapped air give too: p^2 C is added to K (from V = K/p and dV = C dp). From memory: 20 m of rubber hose give some 0.5 ml a kPa, a
 * tenth of a litre of trapped air 0.2 ml; up to 1 ml a kPa is allowed for, on the lower side only, where no
 * heat is seen that would tell them apart.
 */
const GIVE = 1e-9; // m3/Pa
/**
 * Most that is soft beside the tank: a vessel of 12 L charged to 3 bar beside a water heater, p0 V / p^2 at 4.5 bar (codes ask for one where a check valve closes a
 * system; common practice, no source), one for each litre a second that the site draws. A kilometre of plastic pipe to 1.5 m/s gives as much.
 */
const VESSEL = 1.6e-8; // m3/Pa
const VESSEL_FOR = 1e-3; // m3/s that the site draws, of the vessel above
/** Of all that gives: a tank that is all pipe cannot be told. */
const MOST_PIPES = 0.5;

function fromTraces(
  seen: readonly TankTrace[],
  spread: number,
  gauge: Gauge,
  doubtOfRests: number,
  peakFlow: number,
): LivingTank | CannotTell {
  const noise = (trace: TankTrace) => spread * median(trace.inverse) ** 2;
  const asSeen = tellingOf(seen, noise);
  const open: CannotTell = { id: "nothing-to-see", about: "tank", detail: { draws: asSeen.length, wanted: 5 } };
  if (asSeen.length < LEAST_RESTS) return open;
  const steep = usualSlope(asSeen);
  if (!(steep > 0)) return open;
  const lineAt = (slope: number, leak: number) => (trace: TankTrace) => ({ slope, leak, noise: noise(trace) });
  const calmEnds = (traces: readonly TankTrace[], slope: number, leak: number) =>
    traces.map((trace) => Math.min(trace.calmUntil, departureOf(trace, lineAt(slope, leak)(trace))));
  const firstLeak = leakSlope(seen, steep);
  const firstKnee = emptiesAt(asSeen, lineAt(steep, firstLeak), gauge.atmosphere);
  const pipesOf = (traces: readonly TankTrace[], slope: number) => {
    const compliance = median(traces.map((trace) => median(trace.inverse))) ** 2 / slope;
    return {
      most: Math.min(MOST_PIPES, (VESSEL * Math.max(1, peakFlow / VESSEL_FOR)) / compliance),
      unseen: Math.min(MOST_PIPES, GIVE / compliance),
    };
  };
  const heat = gasHeatTime(asSeen, calmEnds(asSeen, steep, firstLeak), gauge, pipesOf(asSeen, steep).most, firstKnee?.value);
  const drew = heat.traces;
  const rough = usualSlope(drew);
  if (!(rough > 0)) return open;
  const leak = leakSlope(heat.time === 0 ? seen : drew, rough);
  const lineOf = (slope: number) => lineAt(slope, leak);
  const endOf = (trace: TankTrace, slope: number) => Math.min(trace.calmUntil, departureOf(trace, lineOf(slope)(trace)));
  const ends = drew.map((trace) => endOf(trace, rough));
  const friction = frictionOf(drew, ends, leak);
  const telling = drew.map((trace) => withoutFriction(trace, friction));
  const pooled = pooledMean(
    telling.map((trace, i) => slopeOfTrace(trace, friction === 0 ? ends[i] : endOf(trace, rough), leak, noise(trace), rough)),
  );
  if (pooled === null || !(pooled.low > 0)) return open;
  const doubt = doubtOfRests * pooled.value;
  const ofHeat = NORMAL_95 * heat.doubt * pooled.value;
  const [low, high] = [pooled.value - pooled.low, pooled.high - pooled.value].map((reach) => Math.hypot(reach, doubt));
  const [lowWarm, highWarm] = [low, high].map((reach) => Math.hypot(reach, ofHeat));
  const used = pooled.kept.map((i) => telling[i]);
  const empties = emptiesAt(telling, lineOf(pooled.value), gauge.atmosphere);
  const give = { value: 1 / pooled.value, low: 1 / (pooled.value + highWarm), high: 1 / (pooled.value - lowWarm) };
  return {
    heatTime: seconds(heat.time),
    heatShare: heat.share,
    windows: used.map((trace) => ({ ...trace.span, drawnVolume: cubicMetre(trace.drawn[trace.drawn.length - 1]) })),
    gasConstant: ownConstant(give, { low: low / pooled.value, high: high / pooled.value }, heat.tried, pipesOf(used, pooled.value)),
    give,
    emptiesAt: empties,
    emptiesBelow: empties === null ? lowestGiving(used, gauge.atmosphere) : null,
    points: pointsOf(used),
  };
}

/** Share to which the water of a rest must be known: where flow changes from sample to sample those that were read too large would count for most. */
const KNOWN_WATER = 0.15;
const TELLING = 3; // noise spreads that the drawn water should move 1/p by
/** Rests with water enough to see, judged by the water and a first slope of all: by their own rise those whose noise is on that side would be picked. */
function tellingOf(traces: readonly TankTrace[], noise: (trace: TankTrace) => number): readonly TankTrace[] {
  const drew = traces.filter((trace) => drawnOf(trace) > 0 && doubtOfVolume(trace, trace.calmUntil) < KNOWN_WATER ** 2);
  const slope = usualSlope(drew);
  return drew.filter((trace) => slope * drawnOf(trace) > TELLING * noise(trace));
}

const drawnOf = ({ drawn, calmUntil }: TankTrace) => drawn[Math.max(0, calmUntil - 1)];

const AGREE_WITHIN = 14_000; // Pa, about 2 psi: knees of one tank lie together, friction's do not

function emptiesAt(traces: readonly TankTrace[], lineOf: (trace: TankTrace) => TankLine, atmosphere: number): LivingTank["emptiesAt"] {
  const knee = kneeOf(traces, lineOf, (inverse) => AGREE_WITHIN * inverse ** 2);
  const gauge = (inverse: number) => 1 / inverse - atmosphere;
  return knee === null ? null : { value: gauge(knee.inverse), low: gauge(knee.high), high: gauge(knee.low) };
}

/** The lowest pressure at which the tank still gave water along the line, Pa gauge; read as the mean of the last three points of a rest. */
function lowestGiving(traces: readonly TankTrace[], atmosphere: number): number {
  const ends = traces.map(({ inverse, calmUntil }) => median(inverse.subarray(Math.max(0, calmUntil - 3), Math.max(1, calmUntil))));
  return 1 / ends.reduce((most, y) => Math.max(most, y), 0) - atmosphere;
}

const MOST_POINTS = 4000;

function pointsOf(traces: readonly TankTrace[]): LivingTank["points"] {
  const total = traces.reduce((sum, trace) => sum + trace.times.length, 0);
  const stride = Math.max(1, Math.ceil(total / MOST_POINTS));
  const picked = traces.flatMap((trace, window) =>
    Array.from({ length: Math.ceil(trace.times.length / stride) }, (_, k) => ({ trace, window, i: k * stride })),
  );
  return {
    drawn: Float64Array.from(picked, ({ trace, i }) => trace.drawn[i]),
    inversePressure: Float64Array.from(picked, ({ trace, i }) => trace.inverse[i]),
    window: Uint16Array.from(picked, ({ window }) => window),
  };
}
