import { isCannotTell, type PumpState } from "../../../shared/findings/segment";
import { type Span, spanLength } from "../../../shared/findings/span";
import { mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../../shared/record/sampling";
import { seconds } from "../../../shared/units/quantity";
import { stretchesOf, valuesWithoutSpikes } from "../../faults/observed";
import { median, quantile } from "../../numerics/order-statistics";
import { overlaps } from "../../segments/idle-rests";
import { spansBelow } from "../../segments/switching";
import type { Evidence } from "../detector";

const COLLAPSED = 0.4; // of the usual running pressure
const FLOW_GONE = 0.1; // of the usual running flow
const UNLOADED = 0.7; // of the usual running current or power: a pump full of air has little to do
const LEAST = 8; // s; shorter is a start
/**
 * Of the usual running pressure: next to nothing is left, for longer than a run-up, s. Outlets give as the root of pressure and a pump its most at no head, some 1.6 times
 * its rating: to hold the pressure there by a draw, one of 1.6 / sqrt(0.1) = 5 times the rating would have to be open.
 */
const NOUGHT = { share: 0.1, least: 30 };
/** With a meter less than that is enough: at so little head a sound pump gives more than it usually does. */
const LITTLE = 0.2;
const MOST_SAMPLES = 20_000;

/**
 * Stretches of a run in which pressure lies far under its usual height and the flow has gone with it (or, without a meter, the motor runs unloaded), and those in
 * which next to no pressure is left and no more flows than usual: loss of prime. Low pressure with much flow is overdraw, and a pressure that is merely low says
 * neither. That the motor is not unloaded says nothing: a drive's motor that turns a pump full of air takes what it takes at small draws. Wrong where a main has burst or the
 * system is filled for the first time. A drive that has speed to spare there does not know of it or is slow to answer: that is its loop. Only where the pump state does
 * not rest on pressure itself.
 */
export function collapses({ record, faults, segments }: Evidence, pressure: Channel): Span[] {
  const { pump } = segments;
  if (isCannotTell(pump) || pump.basis === "pressure" || pump.basis === "flow") return [];
  const values = valuesWithoutSpikes(pressure, faults);
  const usual = usualWhileRunning(pressure, values, pump);
  if (!(usual > 0)) return [];
  const under = (share: number) => overlaps(below(pressure, values, share * usual, faults), pump.runs);
  const gone = overlaps(under(COLLAPSED), goneWith(record, faults, pump) ?? []).filter((span) => spanLength(span) >= LEAST);
  const nought = noughtIn(under, noMoreThanUsual(record, faults, pump)).filter((span) => spanLength(span) >= NOUGHT.least);
  return joined([...gone, ...nought]).filter(isAtItsEnd(record, faults, pump));
}

/** Of the speed that it hardly ever passes: a pump that is asked for pressure and gives none is soon as fast as it goes. */
const NEARLY_FULL = 0.8;
const HARDLY_EVER = 0.95;

/** Whether the drive turned the pump about as fast as it ever did in a span; true where no speed is logged. */
function isAtItsEnd(record: Evidence["record"], faults: Evidence["faults"], pump: PumpState): (span: Span) => boolean {
  const speed = mainChannel(record, "speed");
  if (speed === null) return () => true;
  const values = valuesWithoutSpikes(speed, faults);
  const least = NEARLY_FULL * quantile(whileRunning(speed, values, pump, true), HARDLY_EVER);
  return ({ from, to }) => {
    const [first, end] = [indexAtOrAfter(speed.sampling, from), indexAtOrAfter(speed.sampling, to)];
    return !(median(Array.from(values.subarray(first, end))) < least);
  };
}

function noughtIn(under: (share: number) => Span[], littleFlow: Span[] | null): Span[] {
  return littleFlow === null ? under(NOUGHT.share) : overlaps(under(LITTLE), littleFlow);
}

/** Where the meter shows no more than it usually does in a run; null without one. */
function noMoreThanUsual(record: Evidence["record"], faults: Evidence["faults"], pump: PumpState): Span[] | null {
  const flow = mainChannel(record, "flow");
  if (flow === null) return null;
  const values = valuesWithoutSpikes(flow, faults);
  const usual = usualWhileRunning(flow, values, pump, true);
  return usual > 0 ? below(flow, values, usual, faults) : null;
}

/** Spans that overlap as one, in order. */
function joined(spans: readonly Span[]): Span[] {
  const all: Span[] = [];
  for (const span of [...spans].sort((a, b) => a.from - b.from)) {
    const last = all[all.length - 1];
    if (last !== undefined && span.from <= last.to) all[all.length - 1] = { from: last.from, to: seconds(Math.max(span.to, last.to)) };
    else all.push(span);
  }
  return all;
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

const usualWhileRunning = (...of: Parameters<typeof whileRunning>): number => median(whileRunning(...of));

/** Values of a channel while the pump ran, of those above zero only where asked; evenly thinned where there are many. */
function whileRunning({ sampling }: Channel, values: ArrayLike<number>, { runs }: PumpState, positive = false): number[] {
  const seen: number[] = [];
  const stride = Math.max(1, Math.ceil(values.length / MOST_SAMPLES));
  for (const { from, to } of runs) {
    for (let i = indexAtOrAfter(sampling, from); i < values.length && timeAt(sampling, i) <= to; i += stride)
      if (!positive || values[i] > 0) seen.push(values[i]);
  }
  return seen;
}

function below(channel: Channel, values: ArrayLike<number>, limit: number, faults: Evidence["faults"]): Span[] {
  return spansBelow(values, channel.sampling, stretchesOf(channel, faults), limit, limit * 1.1);
}
