import { channelsOf } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import { habitOf } from "./channel-habit";

/** Out and back by more than twice the usual range in a single sample: a water hammer or an empty tank does not do that to a site twice over. */
const RANGES = 2;
const NOISES = 12;
const MOST_SHARE = 1e-3; // of the samples; more of them are how this site behaves

/** Single pressure readings that no water could make: far out, and back with the next sample. */
export function findSpikes(record: LogRecord): LogFault[] {
  return channelsOf(record, "pressure").flatMap(({ heading, sampling, values }) => {
    const habit = habitOf(values);
    if (habit === null) return [];
    const size = Math.max(RANGES * (habit.high - habit.low), NOISES * habit.noise);
    const spikes: LogFault[] = [];
    for (let i = 1; i + 1 < values.length; i++) {
      const before = values[i] - values[i - 1];
      const after = values[i] - values[i + 1];
      if (!(Math.abs(before) > size && Math.abs(after) > size && before > 0 === after > 0)) continue;
      spikes.push({ kind: "spike", channel: heading, from: timeAt(sampling, i), to: timeAt(sampling, i), note: { kind: "far-out" } });
    }
    return size > 0 && spikes.length <= Math.max(3, MOST_SHARE * values.length) ? spikes : [];
  });
}
