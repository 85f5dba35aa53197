import type { Span } from "../../../shared/findings/span";
import { mainChannel } from "../../../shared/record/find-channel";
import { sampleInterval } from "../../faults/sample-interval";
import { traceIn } from "./at-work";
import { drawnWhileStill } from "./drawn-while-still";
import { found, isClear, isFixedSpeed, type Looks, levelFor, pumpOf, type Sight, setPressureOf } from "./sight";
import { standsAlone } from "./stands-alone";
import { rangeOfStill, stuckWhileMoving } from "./stuck-while-moving";
import { waterMoved } from "./water-moved";

/** At longer intervals the begin of a draw is known too badly for a lag. */
const LAG_SAMPLING = 6; // s
/** Slower than this a sensor disturbs a loop that works within seconds. */
const SLOW_LAG = 3; // s
/** Noise above this share of the band is noisy. */
const NOISY_SHARE = 0.3;
/** A loop with integral action has no mean error, save what its band before sleep and its boost leave: shares of set pressure. */
const SHORT_OF_SET = 0.03;
const OVER_SET = 0.07;

const total = (spans: readonly Span[]) => spans.reduce((sum, s) => sum + s.to - s.from, 0);
const looked = (sight: Sight) => found(sight, "sensor") !== null || isClear(sight, "sensor");

/** Null also where neither flow nor a witness of the pump is logged: without a moment nothing says that the pressure should have moved. */
function stillWhileMoving(sight: Sight): number | null {
  const [pressure, flow, pump] = [mainChannel(sight.record, "pressure"), mainChannel(sight.record, "flow"), pumpOf(sight)];
  if (pressure === null) return null;
  return stuckWhileMoving(pressure, flow, pump, found(sight, "pump-performance")?.peakFlow ?? Number.NaN);
}

/** Water that passes for certain, as a share of the highest flow. */
const PASSES = 0.03;
/** A tank whose volume no one wrote down: a minute of the pump's flow, five times what practice asks for. */
const LARGEST_MINUTES = 60; // s

/** How long the reading stood although the tank gave water, s; 0 where nothing but pressure and flow tell when the pump was at rest. */
function stillWhileDrawn(sight: Sight): number {
  const [trace, pressure, pump] = [traceIn(sight), mainChannel(sight.record, "pressure"), pumpOf(sight)];
  const { tankVolume, pumpRatedFlow, atmosphere } = sight.site;
  const peak = found(sight, "pump-performance")?.peakFlow ?? null;
  const volume = tankVolume?.value ?? (pumpRatedFlow === null ? null : LARGEST_MINUTES * pumpRatedFlow.value);
  const witnessed = pump !== null && pump.basis !== "pressure" && pump.basis !== "flow";
  if (trace === null || pressure === null || peak === null || volume === null || !witnessed) return 0;
  return drawnWhileStill(trace, rangeOfStill(pressure), volume, atmosphere.value, PASSES * peak);
}

export const sensorLooks: Pick<
  Looks,
  "noise" | "noise-with-flow" | "sensor-lag" | "sensor-stuck" | "sensor-scale" | "sensor-pinned" | "held-pressure"
> = {
  noise(sight) {
    const noise = found(sight, "sensor")?.noise ?? null;
    if (noise === null) return null;
    const band = sight.site.limits.band.value;
    return { level: noise > NOISY_SHARE * band ? "noisy" : "quiet", numbers: { noise, band } };
  },
  "noise-with-flow"(sight) {
    const grows = found(sight, "sensor")?.noiseGrowsWithFlow ?? null;
    // with a switch the pump gives its full flow whatever is drawn: a meter after the tank does not show what passes the sensor
    const passesUnseen = isFixedSpeed(sight.site) && sight.segments.meter.place !== "before-tank";
    return grows === null || (passesUnseen && !grows) ? null : { level: grows ? "grows" : "steady", numbers: {} };
  },
  "sensor-lag"(sight) {
    const lag = found(sight, "sensor")?.lag ?? null;
    const sampling = mainChannel(sight.record, "pressure")?.sampling;
    const interval = sampling === undefined ? 0 : (sampleInterval(sampling)?.median ?? 0);
    if (lag === null || interval > LAG_SAMPLING) return null; // when a draw began is known to a sample only
    if (lag.value < SLOW_LAG) return { level: "prompt", numbers: { lag: lag.value } };
    // the channels of a row may be read, or averaged, up to an interval apart: within one it may be the logger's
    return lag.low > interval ? { level: "slow", numbers: { lag: lag.value } } : null;
  },
  "sensor-stuck"(sight) {
    if (!looked(sight)) return null;
    const sensor = found(sight, "sensor");
    const moving = stillWhileMoving(sight);
    const held = (sensor?.stuck ?? []).filter((span) => waterMoved(sight, span));
    const numbers = {
      stuck: Math.max(total(held), moving ?? 0, stillWhileDrawn(sight), total(standsAlone(sight))),
      frozen: total(sensor?.frozen ?? []),
    };
    if (numbers.frozen > 0) return { level: "frozen", numbers };
    return numbers.stuck > 0 ? { level: "stuck", numbers } : moving === null ? null : { level: "no", numbers };
  },
  "sensor-scale"(sight) {
    if (!looked(sight)) return null;
    const ratio = found(sight, "sensor")?.scaleRatio ?? null;
    if (ratio !== null) return { level: "off", numbers: { ratio } };
    return sight.site.setPressure === null ? null : { level: "as-expected", numbers: {} };
  },
  "sensor-pinned"(sight) {
    if (!looked(sight)) return null;
    const pinned = total(found(sight, "sensor")?.pinned ?? []);
    return { level: pinned > 0 ? "yes" : "no", numbers: { pinned } };
  },
  "held-pressure"(sight) {
    const tracking = found(sight, "tracking");
    const set = sight.site.setPressure?.value ?? setPressureOf(sight);
    if (isFixedSpeed(sight.site) || tracking === null || tracking.setPressureFrom !== "given" || tracking.meanError === null) return null;
    if (set === null || !(set > 0)) return null;
    const error = tracking.meanError;
    return { level: levelFor(error / set, [-SHORT_OF_SET, OVER_SET], ["below", "at-set", "above"]), numbers: { error, setPressure: set } };
  },
};
