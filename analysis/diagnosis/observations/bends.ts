import type { Numbers } from "../../../shared/findings/observation";
import type { Span } from "../../../shared/findings/span";
import type { Trace } from "../../model/fit/trace";
import { quantile } from "../../numerics/order-statistics";
import { levelStep, noiseOf } from "../../segments/pressure-noise";
import { traceIn } from "./at-work";
import { found, isFixedSpeed, type Looks, levelFor, pumpOf, type Sight, setPressureOf } from "./sight";

const SLOWEST_SAMPLING = 5; // s between samples; slower ones round every bend by themselves
const LONGEST = 32; // s: a bend that takes longer than this to show is rounded
const MOST_SAMPLES = 200_000; // looked at: enough bends of any log, in bounded time
const LEAST_BENDS = 5; // for a quantile of their shares
/** A bend must stand out of noise by so many standard deviations of it. */
const STANDS_OUT = 12;
/** Of the bends at twice the time, how much the sharper ones show already at this time. */
const SHOWS = 0.7;
const SHARPER = 0.8;
/**
 * Averages over an interval, and draws that begin within one, round every bend over some intervals; and where noise hides what a bend shows at a quarter of the
 * time, that it was not there is not seen: a tank with much give falls in long slopes, of which any bend takes long to stand out. Then nothing is told.
 */
const OWN_ROUNDING = 4; // intervals
const SEEN_FROM = 1 / 4;

/** Size of the bend at i between the means of what lies `reach` samples before and after; NaN over a gap. */
function bendAt({ times, pressure, interval }: Trace, i: number, reach: number): number {
  if (times[i + reach] - times[i - reach] > 3 * reach * interval) return Number.NaN;
  return Math.abs(pressure[i + reach] - 2 * pressure[i] + pressure[i - reach]);
}

/** Fills in the size of the bend at each sample but for the first and the last ones. @returns how many samples were looked at */
function fillSizes(trace: Trace, reach: number, sizes: Float64Array): number {
  const count = Math.min(trace.times.length, MOST_SAMPLES) - reach;
  for (let i = reach; i < count; i++) sizes[i] = bendAt(trace, i, reach);
  return count;
}

/** Bends at 2 x reach, each the largest within that distance; and of each the share that shows at `reach` already. Shape [bends]; `size` is room for the bends of all samples. */
function sharesShown(trace: Trace, reach: number, least: number, size: Float64Array, counts: Counts = () => true): number[] {
  const wide = 2 * reach;
  const count = fillSizes(trace, wide, size);
  const shares: number[] = [];
  for (let i = wide; i < count; i++) {
    if (!(size[i] > least) || !counts(trace, i, wide)) continue;
    let top = true;
    for (let j = Math.max(wide, i - wide); top && j < Math.min(count, i + wide + 1); j++)
      top = !(size[j] > size[i] || (size[j] === size[i] && j < i));
    if (!top) continue;
    let most = 0;
    for (let j = i - reach; j <= i + reach; j++) most = Math.max(most, bendAt(trace, j, reach) || 0);
    shares.push(most / size[i]);
  }
  return shares;
}

type Counts = (trace: Trace, i: number, reach: number) => boolean;

/** A fall that begins or grows steeper with the pump at rest all about: the tank alone feeds the draw, so that what bends is a straight line. */
const isCornerAtRest: Counts = ({ pressure, run }, i, reach) =>
  run[i - reach] < 0 && run[i] < 0 && run[i + reach] < 0 && pressure[i + reach] - 2 * pressure[i] + pressure[i - reach] < 0;

/**
 * Whether the corners at rest are those of straight lines: a bend between two slopes shows a half at half the time, whatever the tank gives and however noise hides
 * its begin; behind a lag tau it shows a quarter for t << tau, and 0.45 even at t = 3 tau. Asked of every time under `time` at which enough of them are seen.
 */
function areStraight(trace: Trace, time: number, least: number, size: Float64Array): boolean {
  let seen = false;
  for (let reach = firstReach(trace); reach * trace.interval <= time; reach *= 2) {
    const shares = sharesShown(trace, reach, least, size, isCornerAtRest);
    if (shares.length < LEAST_BENDS) continue;
    seen = true;
    if (quantile(shares, 0.5) < STRAIGHT) return false;
  }
  return seen;
}
/** Share of a bend between straight lines at half the time, less what rounding of readings takes. */
const STRAIGHT = 0.49;

const firstReach = ({ interval }: Trace): number => Math.max(1, Math.round(0.5 / interval));

/** Of the running time, swings that are not the start-stop saw-tooth: from here on their waves make the bends. */
const OFTEN = 0.1;

function swingsOften(sight: Sight): boolean {
  const total = (spans: readonly Span[]) => spans.reduce((sum, { from, to }) => sum + to - from, 0);
  const swings = (found(sight, "oscillation")?.episodes ?? []).filter((e) => e.drivenBy !== "cycling");
  return total(swings) > OFTEN * total(pumpOf(sight)?.runs ?? []);
}

export const bendLooks: Pick<Looks, "bends"> = {
  /**
   * How long the pressure takes to bend. A valve that opens or a pump that starts moves the pressure within the time constant of pump and tank, some
   * seconds; behind a first-order lag tau the reading's slope takes tau to follow, so that a bend seen over a time t is (t/tau)^2 and grows fourfold
   * with twice the time as long as t < tau. Asked: from which time on the sharper fifth of the bends is mostly there at half that time.
   * With a pressure switch most bends are those of straight lines, which halve at any time, and where the pressure swings most are those of its waves: not asked.
   */
  bends(sight) {
    const [trace, set] = [traceIn(sight), setPressureOf(sight)];
    if (trace === null || set === null || isFixedSpeed(sight.site) || trace.interval > SLOWEST_SAMPLING) return null;
    if (swingsOften(sight)) return null;
    const noise = Math.max(noiseOf(trace.pressure), levelStep(trace.pressure) / Math.sqrt(12));
    const size = new Float64Array(Math.min(trace.times.length, MOST_SAMPLES));
    let seenFrom = Number.POSITIVE_INFINITY;
    const tell = (time: number, numbers: Numbers) => {
      const level = levelFor(time, [7, 14], ["sharp", "soft", "rounded"]);
      if (level === "sharp") return { level, numbers };
      const isRounding = time <= OWN_ROUNDING * trace.interval || seenFrom > SEEN_FROM * time;
      return isRounding || areStraight(trace, time, STANDS_OUT * noise, size) ? null : { level, numbers };
    };
    for (let reach = firstReach(trace); reach * trace.interval <= LONGEST; reach *= 2) {
      const shares = sharesShown(trace, reach, STANDS_OUT * noise, size);
      if (shares.length < LEAST_BENDS) continue;
      seenFrom = Math.min(seenFrom, reach * trace.interval);
      if (quantile(shares, SHARPER) < SHOWS) continue;
      const time = reach * trace.interval;
      return tell(time, { time, bends: shares.length });
    }
    return tell(LONGEST, { time: LONGEST });
  },
};
