import type { Span } from "../../../shared/findings/span";
import { mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { sampleCount, timeAt } from "../../../shared/record/sampling";
import { median } from "../../numerics/order-statistics";
import { heldInTime } from "../../segments/held-in-time";
import { isWithin } from "../../segments/is-within";
import { heldElsewhere } from "./held-elsewhere";
import { cutInOf, cutOutOf, found, isFixedSpeed, type Looks, levelFor, type Sight, setPressureOf } from "./sight";

/** No drive waits so long before it wakes, nor does a switch beyond its own spread: shares of set pressure and of cut-in. Common practice, no source. */
const WAKES_ABOVE = { set: 0.8, cutIn: 0.93 };
/** A pump that starts needs some seconds to turn the pressure, a slow loop some minutes; longer is not the loop. */
const EDGES = [60, 400] as const; // s
/** Shorter records have no usual pressure, s. */
const LEAST_RECORD = 1800;
/** Low for so much of the record is no event. */
const MOSTLY = 0.6;
/** A usual pressure outside of the band by this share is not what the control holds. */
const ASTRAY = 0.1;

/**
 * Longest stretch under a pressure outside of some spans, s, and the share of the record under it. A gap of three intervals ends a stretch; what was logged on
 * change stands until the next value, however long. O(n).
 */
function timeUnder(
  { values, sampling }: Channel,
  pressure: number,
  without: readonly Span[],
): { readonly longest: number; readonly share: number } {
  const n = sampleCount(sampling);
  const holds = sampling.kind === "on-change";
  const end = holds ? sampling.until : timeAt(sampling, n - 1);
  const gap = holds ? Number.POSITIVE_INFINITY : (3 * (end - timeAt(sampling, 0))) / Math.max(1, n - 1);
  let [longest, total, from] = [0, 0, Number.NaN];
  for (let i = 1; i < (holds ? n + 1 : n); i++) {
    const at = i < n ? timeAt(sampling, i) : end;
    const step = at - timeAt(sampling, i - 1);
    const isUnder = values[i - 1] < pressure && (holds || values[i] < pressure);
    if (!isUnder || step > gap || isWithin(without, at)) {
      from = Number.NaN;
      continue;
    }
    if (Number.isNaN(from)) from = timeAt(sampling, i - 1);
    longest = Math.max(longest, at - from);
    total += step;
  }
  return { longest, share: total / (end - timeAt(sampling, 0)) };
}

/** Pressures between which the control works, Pa; null where facts and log leave them open. */
function bandOf(sight: Sight): { readonly starts: number; readonly low: number; readonly high: number } | null {
  if (isFixedSpeed(sight.site)) {
    const [cutIn, cutOut] = [sight.site.cutIn?.value ?? cutInOf(sight), sight.site.cutOut?.value ?? cutOutOf(sight)];
    return cutIn === null || cutOut === null || !(cutIn > 0) ? null : { starts: WAKES_ABOVE.cutIn * cutIn, low: cutIn, high: cutOut };
  }
  const set = setPressureOf(sight);
  return set === null || !(set > 0) ? null : { starts: WAKES_ABOVE.set * set, low: WAKES_ABOVE.set * set, high: set };
}

export const lowTimesLooks: Pick<Looks, "low-times" | "usual-pressure"> = {
  /**
   * How long the pressure stands under what makes the pump start. There it starts, whatever else is logged, and a pump with water and power to spare
   * brings the pressure back: minutes under it are a loop that comes late, longer is a pump that cannot. By the pressure alone, also where nothing
   * tells when the pump ran: a pump that never reaches its pressure makes no saw-tooth to tell it by.
   */
  "low-times"(sight) {
    const [channel, band] = [mainChannel(sight.record, "pressure"), bandOf(sight)];
    if (channel === null || band === null || sight.record.duration < LEAST_RECORD) return null;
    const silences = sight.record.faults.filter(({ kind }) => kind === "silence");
    const { longest, share } = timeUnder(channel, band.starts, [...heldElsewhere(sight), ...silences]);
    const numbers = { longest, share, under: band.starts };
    return { level: share > MOSTLY ? "mostly" : levelFor(longest, EDGES, ["brief", "minutes", "long"]), numbers };
  },
  /** Where the pressure stands half of the time, at rest or held, against the band of the control: a control cannot hold it outside unless it reads something else. */
  "usual-pressure"(sight) {
    const [channel, band] = [mainChannel(sight.record, "pressure"), bandOf(sight)];
    if (channel === null || band === null || sight.record.duration < LEAST_RECORD) return null;
    const otherwise = found(sight, "tracking")?.otherSetPressure?.times ?? [];
    const { sampling, values } = channel;
    const own = otherwise.length === 0 ? values : values.map((value, i) => (isWithin(otherwise, timeAt(sampling, i)) ? Number.NaN : value));
    const usual = median(heldInTime(own, sampling));
    const level = usual < (1 - ASTRAY) * band.low ? "below" : usual > (1 + ASTRAY) * band.high ? "above" : "in-band";
    return { level, numbers: { usual, low: band.low, high: band.high } };
  },
};
