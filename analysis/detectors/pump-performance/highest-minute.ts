import { mainChannel } from "../../../shared/record/find-channel";
import { timeAt } from "../../../shared/record/sampling";
import { type CubicMetrePerSecond, cubicMetrePerSecond } from "../../../shared/units/quantity";
import { stretchesOf, valuesWithoutSpikes } from "../../faults/observed";
import { cumulativeVolume } from "../../segments/volume";
import type { Evidence } from "../detector";

const MINUTE = 60;

/** Highest mean flow over a minute or the next longer stretch that the sampling allows; null without flow or below a minute of it. O(n) */
export function highestMinute({ record, faults }: Evidence): CubicMetrePerSecond | null {
  const flow = mainChannel(record, "flow");
  if (flow === null) return null;
  const volume = cumulativeVolume(flow, valuesWithoutSpikes(flow, faults));
  let highest = Number.NaN;
  for (const { first, last } of stretchesOf(flow, faults)) {
    for (let i = first, from = first; i <= last; i++) {
      while (from < i && timeAt(flow.sampling, i) - timeAt(flow.sampling, from + 1) >= MINUTE) from++;
      const span = timeAt(flow.sampling, i) - timeAt(flow.sampling, from);
      if (span < MINUTE) continue;
      const mean = (volume[i] - volume[from]) / span;
      if (!(mean <= highest)) highest = mean;
    }
  }
  return Number.isNaN(highest) ? null : cubicMetrePerSecond(highest);
}
