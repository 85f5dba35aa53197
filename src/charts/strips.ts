import type { ChannelQuantity } from "../../shared/record/channel-role";
import type { Shown } from "../../shared/units/format-quantity";
import { STRIP_WORDS } from "../../shared/wording/chart";
import type { TraceChannel } from "../worker/messages";
import { pyramidRange } from "./pyramid";

/** Channels of one quantity share a strip and its axis: nothing is ever read off another's scale. */
export type Strip = {
  readonly quantity: ChannelQuantity;
  readonly title: string;
  readonly shown: Shown;
  /** Indexes into the traces. */
  readonly channels: readonly number[];
  /** Least and greatest value, SI; zero included where it matters to the eye. */
  readonly low: number;
  readonly high: number;
};

/** A heading without the unit that it carries in brackets. */
export const bareHeading = (heading: string): string => heading.replace(/[([{].*$/u, "").trim() || heading;

type StripKind = { readonly title: string; readonly shown: Shown; readonly fromZero: boolean };

/** In the order of the page, pressure first. A pressure or a temperature has no natural zero on a picture, a flow has. */
const KINDS: readonly (readonly [ChannelQuantity, StripKind])[] = [
  ["gaugePressure", { title: STRIP_WORDS.pressure, shown: "gaugePressure", fromZero: false }],
  ["absolutePressure", { title: STRIP_WORDS.absolutePressure, shown: "absolutePressure", fromZero: false }],
  ["flow", { title: STRIP_WORDS.flow, shown: "flow", fromZero: true }],
  ["frequency", { title: STRIP_WORDS.speed, shown: "frequency", fromZero: true }],
  ["rotation", { title: STRIP_WORDS.speed, shown: "rotation", fromZero: true }],
  ["fraction", { title: STRIP_WORDS.speed, shown: "fraction", fromZero: true }],
  ["state", { title: STRIP_WORDS.state, shown: "none", fromZero: true }],
  ["electricCurrent", { title: STRIP_WORDS.current, shown: "electricCurrent", fromZero: true }],
  ["power", { title: STRIP_WORDS.power, shown: "power", fromZero: true }],
  ["voltage", { title: STRIP_WORDS.voltage, shown: "voltage", fromZero: false }],
  ["volume", { title: STRIP_WORDS.volume, shown: "volume", fromZero: false }],
  ["length", { title: STRIP_WORDS.level, shown: "length", fromZero: false }],
  ["temperature", { title: STRIP_WORDS.temperature, shown: "temperature", fromZero: false }],
  ["none", { title: STRIP_WORDS.none, shown: "none", fromZero: false }],
];

/** One strip per quantity present; channels without a unit get a strip each, since nothing says that they compare. */
export function stripsOf(traces: readonly TraceChannel[]): readonly Strip[] {
  return KINDS.flatMap(([quantity, kind]) => {
    const members = traces.flatMap((trace, index) => (trace.quantity === quantity ? [index] : []));
    if (members.length === 0) return [];
    if (quantity === "none") return members.map((index) => strip(traces, quantity, { ...kind, title: traces[index].heading }, [index]));
    return [strip(traces, quantity, kind, members)];
  });
}

function strip(traces: readonly TraceChannel[], quantity: ChannelQuantity, kind: StripKind, channels: readonly number[]): Strip {
  let low = kind.fromZero ? 0 : Infinity;
  let high = kind.fromZero ? 0 : -Infinity;
  for (const index of channels) {
    const range = pyramidRange(traces[index].pyramid);
    if (range !== null) {
      low = Math.min(low, range.low);
      high = Math.max(high, range.high);
    }
  }
  return { quantity, title: kind.title, shown: kind.shown, channels, low: low <= high ? low : 0, high: low <= high ? high : 1 };
}
