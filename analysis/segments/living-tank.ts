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
import { withoutTremble } from "./flow-thresholds";
import { gasHeatTime } from "./gas-heat-time";
import { levelStep, noiseOf } from "./pressure-noise";
import { departureOf, type Knee, kneeOf, type TankLine } from "./tank-knee";
import { frictionOf, leakSlope, slopeOfTrace, usualSlope, withoutFriction } from "./tank-slope";
import { type Gauge, type Meter, type TankTrace, tankTraces } from "./tank-windows";
import { cumulativeVolume } from "./volume";

/**
 * The tank as the log shows it: while the pump rests and metered water leaves the tank, 1/p(abs) rises by 1/K per volume drawn (Boyle), K = p0 Vt.
 * One slope a rest, pooled over rests with the scatter between them. Where 1/p leaves the line upward and the flow did not rise, the tank is empty.
 * Wrong where the meter's factor is wrong (K by the same factor), where unmetered water leaves between tank and meter in bursts, and for draws so
 * fast that the gas cools (K too low by up to the exponent 1.4).
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
  if (place.place === "before-tank") return { id: "nothing-to-see", about, detail: { why: BEFORE_TANK } };
  if (isCannotTell(pump)) return { ...pump, about };
  if (place.place === null) return { id: "site-fact-missing", about, detail: { missing: "flowMeter" } };
  const values = valuesWithoutSpikes(pressure, faults);
  const gauge: Gauge = { channel: pressure, values, stretches: stretchesOf(pressure, faults), atmosphere: site.atmosphere.value };
  const flows = withoutTremble(valuesWithoutSpikes(flow, faults));
  const meter: Meter = { channel: flow, values: flows, volume: cumulativeVolume(flow, flows), stretches: stretchesOf(flow, faults) };
  const spread = Math.hypot(noiseOf(values), levelStep(values) / Math.sqrt(12));
  return fromTraces(tankTraces(pump, gauge, meter), spread, gauge, pump.basis === "pressure" ? DOUBT.pressure : DOUBT.drive);
}

const BEFORE_TANK = "the flow meter stands before the tank and does not see what is drawn from it at rest. Log a meter after the tank";

const LEAST_RESTS = 2;
const NORMAL_95 = 1.96; // standard deviations of the normal distribution that hold 95 %
/**
 * What stays uncertain however many rests there are. The meter itself: 2 % in the upper flow range (ISO 4064, from memory); gas that is not quite ideal adds
 * little. More where the rests were told by the pressure itself.
 */
const DOUBT = { drive: 0.02, pressure: 0.035 };
/**
 * Pipes, hoses and trapped air give too: p^2 C is added to K (from V = K/p and dV = C dp). From memory: 20 m of rubber hose give some 0.5 ml a kPa, a
 * tenth of a litre of trapped air 0.2 ml; up to 1 ml a kPa is allowed for, on the lower side only.
 */
const GIVE = 1e-9; // m3/Pa

function fromTraces(seen: readonly TankTrace[], spread: number, gauge: Gauge, doubtOfRests: number): LivingTank | CannotTell {
  const noise = (trace: TankTrace) => spread * median(trace.inverse) ** 2;
  const drewFrom = (traces: readonly TankTrace[]) =>
    traces.filter((trace) => rise(trace) > 6 * noise(trace) && trace.drawn[trace.drawn.length - 1] > 0);
  const asSeen = drewFrom(seen);
  const open: CannotTell = { id: "nothing-to-see", about: "tank", detail: { draws: asSeen.length, wanted: 5 } };
  if (asSeen.length < LEAST_RESTS) return open;
  const steep = usualSlope(asSeen);
  if (!(steep > 0)) return open;
  const lineAt = (slope: number, leak: number) => (trace: TankTrace) => ({ slope, leak, noise: noise(trace) });
  const calmEnds = (traces: readonly TankTrace[], slope: number, leak: number) =>
    traces.map((trace) => Math.min(trace.calmUntil, departureOf(trace, lineAt(slope, leak)(trace))));
  const heat = gasHeatTime(asSeen, calmEnds(asSeen, steep, leakSlope(seen, steep)), gauge);
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
    telling.map((trace, i) => slopeOfTrace(trace, friction === 0 ? ends[i] : endOf(trace, rough), leak, noise(trace))),
  );
  if (pooled === null || !(pooled.low > 0)) return open;
  const doubt = doubtOfRests * pooled.value;
  const ofHeat = NORMAL_95 * heat.doubt * pooled.value;
  const [low, high] = [pooled.value - pooled.low, pooled.high - pooled.value].map((reach) => Math.hypot(reach, doubt, ofHeat));
  const used = pooled.kept.map((i) => telling[i]);
  const elastic = GIVE / median(used.map((trace) => median(trace.inverse))) ** 2;
  const empties = emptiesAt(telling, lineOf(pooled.value), gauge.atmosphere);
  return {
    heatTime: seconds(heat.time),
    heatShare: heat.share,
    windows: used.map((trace) => ({ ...trace.span, drawnVolume: cubicMetre(trace.drawn[trace.drawn.length - 1]) })),
    gasConstant: { value: 1 / pooled.value, low: lowest(1 / (pooled.value + high), elastic), high: 1 / (pooled.value - low) },
    emptiesAt: empties,
    emptiesBelow: empties === null ? lowestGiving(used, gauge.atmosphere) : null,
    points: pointsOf(used),
  };
}

/** Never below a tenth: a tank that is all elastic pipe cannot be told. */
const lowest = (low: number, elastic: number) => Math.max(low / 10, low - elastic);

const rise = ({ inverse }: TankTrace) => inverse[inverse.length - 1] - inverse[0];

const AGREE_WITHIN = 14_000; // Pa, about 2 psi: knees of one tank lie together, friction's do not
const LEAST_KNEES = 2;

function emptiesAt(traces: readonly TankTrace[], lineOf: (trace: TankTrace) => TankLine, atmosphere: number): LivingTank["emptiesAt"] {
  const knees = traces.map((trace) => kneeOf(trace, lineOf(trace))).filter((knee) => knee !== null);
  if (knees.length < LEAST_KNEES) return null;
  const gauges = knees.map((knee) => 1 / knee.inverse - atmosphere);
  const [low, value, high] = quantiles(gauges, [0.1, 0.5, 0.9]);
  if (high - low > AGREE_WITHIN) return null;
  const reach = Math.max((high - low) / 2, median(knees.map((knee: Knee) => knee.reach / knee.inverse ** 2)));
  return { value, low: value - reach, high: value + reach };
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
