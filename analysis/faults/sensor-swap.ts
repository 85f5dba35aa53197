import { channelsOf } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { sampleCount, timeAt } from "../../shared/record/sampling";
import { habitOf } from "./channel-habit";
import { sampleInterval } from "./sample-interval";
import { changeAgainst } from "./sensor-swap/by-another-sensor";
import { changeOfLevel, FASTEST_WATER } from "./sensor-swap/by-level";
import { changeOfNoise, SLOWEST } from "./sensor-swap/by-noise";
import { changeOfSteps } from "./sensor-swap/by-steps-of-values";
import { type Change, LEAST_SAMPLES } from "./sensor-swap/change";

/**
 * Another sensor in mid-record: the readings are stepped otherwise, or all shift at once, or their noise changes for good while water and pump go on. The
 * log does not show which sensor was right; the shorter part is the fault, so that figures rest on the longer.
 * Of one pressure alone a smaller shift than the water's own steps, or one between samples some seconds apart, is not told: a set pressure may have been changed.
 */
export function findSensorSwaps(record: LogRecord): LogFault[] {
  return channelsOf(record, "pressure").flatMap((channel): LogFault[] => {
    const { sampling, heading, values } = channel;
    const count = sampleCount(sampling);
    const step = sampleInterval(sampling)?.median ?? null;
    if (step === null || count < 2 * LEAST_SAMPLES) return [];
    const change = changeIn(channel, record, step);
    if (change === null) return [];
    const [first, last] = change.at > count / 2 ? [change.at, values.length - 1] : [0, change.at - 1];
    const note = { kind: "sensor-swapped", sign: change.sign } as const;
    return [{ kind: "sensor-swap", channel: heading, from: timeAt(sampling, first), to: timeAt(sampling, last), note }];
  });
}

function changeIn(channel: Channel, record: LogRecord, step: number): Change | null {
  const { values, sampling } = channel;
  const beside = (["running", "speed", "flow", "current", "power"] as const).flatMap((role) =>
    channelsOf(record, role).filter((channel) => channel.sampling === sampling),
  );
  const others = channelsOf(record, "pressure").filter((other) => other !== channel && other.sampling === sampling);
  const witnesses = [...beside, ...others];
  const noise = habitOf(values)?.noise ?? Number.POSITIVE_INFINITY;
  return (
    changeOfSteps(values) ??
    others.map((other) => changeAgainst(values, other.values)).find((change) => change !== null) ??
    (step <= FASTEST_WATER ? changeOfLevel(values, noise, witnesses) : null) ??
    (step <= SLOWEST ? changeOfNoise(values, witnesses) : null)
  );
}
