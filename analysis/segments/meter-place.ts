import type { MeterPlace, PumpState, Run } from "../../shared/findings/segment";
import type { Span } from "../../shared/findings/span";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../shared/record/sampling";
import type { SiteFacts } from "../../shared/site/site-facts";
import { seconds } from "../../shared/units/quantity";
import { stretchesOf, valuesWithoutSpikes } from "../faults/observed";
import { sampleInterval } from "../faults/sample-interval";
import { quantiles } from "../numerics/order-statistics";
import { someValues } from "../numerics/some-values";
import { type FlowThresholds, flowThresholds } from "./flow-thresholds";
import { heldInTime } from "./held-in-time";
import { overlaps } from "./idle-rests";
import { noiseOf } from "./pressure-noise";
import { restsOf } from "./starts";
import { runsOf } from "./switching";

const UNKNOWN: MeterPlace = { place: null, from: null, certainty: 0 };
const LEAST_VOTES = 4;
const CLEAR_SHARE = 0.8; // of the votes
/** Flow that begins in a known rest can only be a draw after the tank; a fall without flow is also what a leak makes: so few of all votes will do. */
const DRAWS_IN_RESTS = 0.25;
const MOST_VOTES_OF_REST = 2;

/**
 * Where the flow meter stands: as given, else as the log shows it. While the pump rests, what is drawn comes out of the tank: a meter after the
 * tank sees it, one before the tank sees nothing. The rests are those of the known pump state, else the stretches of falling pressure; then
 * the bends of the pressure where flow begins and ends speak too: a pump that begins to give turns it up, a draw that begins turns it down.
 * Unknown where neither speaks clearly, or where nothing but a leak before the meter empties the tank.
 */
export function findMeterPlace(record: LogRecord, faults: readonly LogFault[], site: SiteFacts, drive: PumpState | null): MeterPlace {
  if (site.flowMeter !== null) return { place: site.flowMeter, from: "given", certainty: 1 };
  const flow = mainChannel(record, "flow");
  if (flow === null) return UNKNOWN;
  const values = valuesWithoutSpikes(flow, faults);
  const thresholds = flowThresholds(heldInTime(values, flow.sampling));
  if (thresholds === null) return UNKNOWN;
  const pressure = mainChannel(record, "pressure");
  const falling = pressure === null ? null : falls(pressure, faults);
  if (drive?.mode === "switching") {
    const rests = restsOf(drive);
    const { after } = votesOfRests(flow, values, thresholds, trimmed(rests, flow));
    const { before } = votesOfRests(flow, values, thresholds, trimmed(falling === null ? rests : overlaps(rests, falling), flow));
    return verdict({ before, after }, DRAWS_IN_RESTS);
  }
  if (pressure === null || falling === null) return UNKNOWN;
  const ofFalls = votesOfRests(flow, values, thresholds, trimmed(falling, flow));
  const flows = runsOf(values, flow.sampling, stretchesOf(flow, faults), thresholds);
  const ofBends = votesOfBends(flows, pressure, faults);
  // bends that go one way about as often as the other are a coin, as those of a meter whose flow begins and ends with each pulse
  if (!isClear(ofBends, CLEAR_SHARE)) return verdict(ofFalls, CLEAR_SHARE);
  return verdict({ before: ofFalls.before + ofBends.before, after: ofFalls.after + ofBends.after }, CLEAR_SHARE);
}

const isClear = ({ before, after }: Votes, share: number) => Math.max(before, after) >= share * (before + after);

type Votes = { readonly before: number; readonly after: number };

/** A check valve and a meter take some seconds to come to rest, and two clocks may differ by a sample. */
function trimmed(spans: readonly Span[], flow: Channel): Span[] {
  const edge = Math.max(3, 1.5 * (sampleInterval(flow.sampling)?.median ?? 0));
  return spans.flatMap(({ from, to }) => (to - from > 3 * edge ? [{ from: seconds(from + edge), to: seconds(to - edge) }] : []));
}

/** A pump that runs out is not seen for so much of its rest. */
const MOST_OF_REST = 0.5;

/**
 * Flow that begins in a rest, or lasts most of it, speaks for a meter after the tank; a rest without flow against it, unless the meter has a base flow
 * that never stops.
 */
function votesOfRests({ sampling }: Channel, values: ArrayLike<number>, { at, neverStops }: FlowThresholds, rests: readonly Span[]): Votes {
  let before = 0;
  let after = 0;
  for (const { from, to } of rests) {
    let [flowing, samples, begun] = [0, 0, 0];
    for (let i = indexAtOrAfter(sampling, from); i < values.length && timeAt(sampling, i) <= to; i++) {
      if (values[i] >= at) flowing++;
      if (samples > 0 && values[i] >= at && values[i - 1] < at && values[i + 1] >= at) begun++;
      samples++;
    }
    if (samples < 2) continue;
    if (begun > 0 || flowing >= Math.max(2, MOST_OF_REST * samples)) after += Math.max(1, Math.min(begun, MOST_VOTES_OF_REST));
    else if (flowing === 0 && !neverStops) before++;
  }
  return { before, after };
}

/** @param enough share of the votes that decides for a meter after the tank; one before it always needs a clear share */
function verdict({ before, after }: Votes, enough: number): MeterPlace {
  const votes = before + after;
  const decided = (n: number, share: number) => n >= LEAST_VOTES && n >= share * votes;
  const certainty = (Math.max(before, after) / votes) * (1 - 2 ** -votes);
  if (decided(after, enough)) return { place: "after-tank", from: "log", certainty };
  return decided(before, CLEAR_SHARE) ? { place: "before-tank", from: "log", certainty } : UNKNOWN;
}

const LAG = 4; // samples over which a fall is read
const FALL_SHARE = 0.15; // of the range: a fall that counts is a good part of what the tank does
const SLOWEST = 15 * 60; // s for the whole range: what falls more slowly may be a leak, which a meter after the tank need not see

/** Stretches in which pressure falls on and on by a good part of its range, as fast as a draw makes it fall. */
function falls(pressure: Channel, faults: readonly LogFault[]): Span[] {
  const values = valuesWithoutSpikes(pressure, faults);
  const [low, high] = quantiles(someValues(values), [0.01, 0.99]);
  const noise = noiseOf(values);
  return stretchesOf(pressure, faults).flatMap(({ first, last }) => {
    const spans: Span[] = [];
    for (let i = first + LAG, start = -1; i <= Math.min(last, sampleCount(pressure.sampling) - 1); i++) {
      const falling = values[i] - values[i - LAG] < -3 * noise && values[i] < values[i - LAG];
      if (falling && start < 0) start = i - LAG;
      if (falling || start < 0) continue;
      const fall = values[start] - values[i - 1];
      const span = { from: timeAt(pressure.sampling, start), to: timeAt(pressure.sampling, i - 1) };
      if (fall > FALL_SHARE * (high - low) && fall * SLOWEST > (high - low) * (span.to - span.from)) spans.push(span);
      start = -1;
    }
    return spans;
  });
}

/** Bend of the pressure where flow begins (up: pump) and ends (down: pump), as far as it stands out of the noise. */
function votesOfBends(flows: readonly Run[], pressure: Channel, faults: readonly LogFault[]): Votes {
  const values = valuesWithoutSpikes(pressure, faults);
  const noise = noiseOf(values);
  const bends = flows.flatMap(({ from, to, complete }) =>
    complete ? [bendAt(pressure, values, from, noise), -bendAt(pressure, values, to, noise)] : [],
  );
  return { before: bends.filter((bend) => bend > 0).length, after: bends.filter((bend) => bend < 0).length };
}

const SIDE = 5; // samples on either side
const LONGEST_SIDE = 60; // s; further apart, a cycle fits in between
const STANDS_OUT = 4; // standard deviations

/** Slope after less slope before an instant, Pa per sample; 0 where it does not stand out of the noise or cannot be read. */
function bendAt({ sampling }: Channel, values: ArrayLike<number>, instant: number, noise: number): number {
  const at = indexAtOrAfter(sampling, instant);
  if (at < SIDE || at + SIDE > sampleCount(sampling)) return 0;
  if (timeAt(sampling, at + SIDE - 1) - timeAt(sampling, at - SIDE) > 2 * LONGEST_SIDE) return 0;
  const bend = slope(values, at, at + SIDE - 1) - slope(values, at - SIDE, at - 1);
  const sd = noise * Math.sqrt(24 / (SIDE ** 3 - SIDE)); // of a difference of two least-squares slopes
  return Math.abs(bend) > STANDS_OUT * sd ? bend : 0;
}

/** Least-squares slope of values[first..last] per sample. */
function slope(values: ArrayLike<number>, first: number, last: number): number {
  const middle = (first + last) / 2;
  let sxy = 0;
  let sxx = 0;
  for (let i = first; i <= last; i++) {
    sxy += (i - middle) * values[i];
    sxx += (i - middle) ** 2;
  }
  return sxy / sxx;
}
