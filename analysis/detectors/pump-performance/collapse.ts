import { isCannotTell, type PumpState } from "../../../shared/findings/segment";
import { type Span, spanLength } from "../../../shared/findings/span";
import { mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../../shared/record/sampling";
import { stretchesOf, valuesWithoutSpikes } from "../../faults/observed";
import { median } from "../../numerics/order-statistics";
import { overlaps } from "../../segments/idle-rests";
import { spansBelow } from "../../segments/switching";
import type { Evidence } from "../detector";

const COLLAPSED = 0.4; // of the usual running pressure
const FLOW_GONE = 0.1; // of the usual running flow
const UNLOADED = 0.7; // of the usual running current or power: a pump full of air has little to do
const LEAST = 8; // s; shorter is a start
const MOST_SAMPLES = 20_000;

/**
 * Stretches of a run in which pressure lies far under its usual height and the flow has gone with it (or, without a meter, the motor runs unloaded): loss of
 * prime. Low pressure with much flow is overdraw, and low pressure alone says neither. Only where the pump state does not rest on pressure itself.
 */
export function collapses({ record, faults, segments }: Evidence, pressure: Channel): Span[] {
  const { pump } = segments;
  if (isCannotTell(pump) || pump.basis === "pressure" || pump.basis === "flow") return [];
  const values = valuesWithoutSpikes(pressure, faults);
  const usual = usualWhileRunning(pressure, values, pump);
  if (!(usual > 0)) return [];
  const under = below(pressure, values, COLLAPSED * usual, faults);
  const witness = goneWith(record, faults, pump);
  if (witness === null) return [];
  return overlaps(overlaps(under, pump.runs), witness).filter((span) => spanLength(span) >= LEAST);
}

/** Where flow has gone, else where the motor runs unloaded; null where neither is logged. */
function goneWith(record: Evidence["record"], faults: Evidence["faults"], pump: PumpState): Span[] | null {
  for (const [role, share] of [
    ["flow", FLOW_GONE],
    ["power", UNLOADED],
    ["current", UNLOADED],
  ] as const) {
    const channel = mainChannel(record, role);
    if (channel === null) continue;
    const values = valuesWithoutSpikes(channel, faults);
    const usual = usualWhileRunning(channel, values, pump, role === "flow");
    if (usual > 0) return below(channel, values, share * usual, faults);
  }
  return null;
}

/** Median of a channel while the pump ran, of the values above zero only where asked. */
function usualWhileRunning({ sampling }: Channel, values: ArrayLike<number>, { runs }: PumpState, positive = false): number {
  const seen: number[] = [];
  const stride = Math.max(1, Math.ceil(values.length / MOST_SAMPLES));
  for (const { from, to } of runs) {
    for (let i = indexAtOrAfter(sampling, from); i < values.length && timeAt(sampling, i) <= to; i += stride)
      if (!positive || values[i] > 0) seen.push(values[i]);
  }
  return median(seen);
}

function below(channel: Channel, values: ArrayLike<number>, limit: number, faults: Evidence["faults"]): Span[] {
  return spansBelow(values, channel.sampling, stretchesOf(channel, faults), limit, limit * 1.1);
}
