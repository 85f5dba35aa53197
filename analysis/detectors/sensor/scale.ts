import { mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../../shared/record/sampling";
import { valuesWithoutSpikes } from "../../faults/observed";
import { quantiles } from "../../numerics/order-statistics";
import { knownPump } from "../../segments/starts";
import { switchingPressures } from "../../segments/switching-pressures";
import type { Evidence } from "../detector";

const WRONG_FROM = 0.15; // of the expected pressure: settings drift, dials are read badly
const HELD_WITHIN = 0.08; // quartiles about the median: a pressure that is held, only elsewhere
const AT_LIMIT = 0.97; // of the highest speed: a pump that cannot do more is weak, not wrongly scaled

/**
 * Recorded over expected pressure, where a drive steadily holds another pressure than its set pressure, or a switch stops the pump elsewhere than its cut-out.
 * Null where it agrees within 15 %, where nothing is held steadily, where the pump is at its limit, or without the fact.
 */
export function scaleRatio(evidence: Evidence, pressure: Channel): number | null {
  const { site } = evidence;
  const ratio = site.pump === "fixed-speed" || site.setPressure === null ? ofCutOut(evidence, pressure) : ofHeld(evidence, pressure);
  return ratio !== null && Math.abs(ratio - 1) > WRONG_FROM ? ratio : null;
}

function ofCutOut({ segments, site, faults }: Evidence, pressure: Channel): number | null {
  const pump = knownPump(segments);
  if (site.cutOut === null || pump === null || !(site.cutOut.value > 0)) return null;
  const { cutOut } = switchingPressures(pump, pressure, faults);
  return cutOut === null ? null : cutOut.value / site.cutOut.value;
}

const MOST_SAMPLES = 20_000;

function ofHeld({ record, segments, site, faults }: Evidence, pressure: Channel): number | null {
  const pump = knownPump(segments);
  if (pump === null || site.setPressure === null || !(site.setPressure.value > 0)) return null;
  const values = valuesWithoutSpikes(pressure, faults);
  const running: number[] = [];
  const stride = Math.max(1, Math.ceil(values.length / MOST_SAMPLES));
  for (const { from, to } of pump.runs) {
    const settled = from + Math.min(20, (to - from) / 2);
    for (let i = indexAtOrAfter(pressure.sampling, settled); i < values.length && timeAt(pressure.sampling, i) <= to; i += stride)
      running.push(values[i]);
  }
  if (running.length < 20 || isAtLimit(record, pump.runs)) return null;
  const [low, middle, high] = quantiles(running, [0.25, 0.5, 0.75]);
  return high - low > 2 * HELD_WITHIN * Math.abs(middle) ? null : middle / site.setPressure.value;
}

/** Whether the drive mostly ran at its highest speed. */
function isAtLimit(record: Evidence["record"], runs: readonly { from: number; to: number }[]): boolean {
  const speed = mainChannel(record, "speed");
  if (speed === null) return false;
  const seen: number[] = [];
  const stride = Math.max(1, Math.ceil(speed.values.length / MOST_SAMPLES));
  for (const { from, to } of runs) {
    for (let i = indexAtOrAfter(speed.sampling, from); i < speed.values.length && timeAt(speed.sampling, i) <= to; i += stride)
      seen.push(speed.values[i]);
  }
  if (seen.length < 5) return false;
  const [middle, top] = quantiles(seen, [0.5, 0.999]);
  const full = speed.quantity === "fraction" ? 1 : top;
  return middle > AT_LIMIT * full && full > 0;
}
