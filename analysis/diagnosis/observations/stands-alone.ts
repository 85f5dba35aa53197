import type { Span } from "../../../shared/findings/span";
import { mainChannel } from "../../../shared/record/find-channel";
import { timeAt } from "../../../shared/record/sampling";
import { seconds } from "../../../shared/units/quantity";
import { columnExtent } from "../../numerics/column-extent";
import { median } from "../../numerics/order-statistics";
import { remembered } from "../../numerics/remember";
import type { Sight } from "./sight";
import { rangeOfStill } from "./stuck-while-moving";
import { pumpSwitched } from "./water-moved";

/** How long a reading must stand to the digit, s and samples: longer than two draws of a home lie apart by day. Our own choice. */
const LEAST = { seconds: 900, samples: 60 };
/** So many times as long as the longest that is left when those of some few stuck times are set aside. */
const ALONE = { times: 4, stuckTimes: 4 };
/**
 * Windows of so many samples in which the pressure is quiet: so many of them must be seen, and in so many of them the reading changes by its own noise. Steps that are
 * coarse beside the noise hide it, where the pressure rests in the middle of one.
 */
const QUIET = { samples: 30, least: 10, alive: 0.9 };
/** A pump without water, or one that is asked for more than it has, holds a low pressure as still: a reading that stands is one of the usual. */
const USUAL = 0.75;

type Stand = { readonly first: number; readonly last: number };

/**
 * When the pressure stood to the digit as it never does elsewhere in the log, however quiet it is there. A live reading carries the noise of sensor and logger, which
 * does not stop with the water: where quiet windows mostly show it, a stretch without any, several times as long as all others, is a sensor or a logger that
 * stopped. Where rests stand still everywhere there is no noise to miss: there the pump must have started or stopped meanwhile. O(n).
 */
export const standsAlone = remembered((sight: Sight): readonly Span[] => {
  const channel = mainChannel(sight.record, "pressure");
  if (channel === null || channel.sampling.kind === "on-change") return [];
  const { values, sampling } = channel;
  const stands = standsIn(values).sort((a, b) => lengthOf(b) - lengthOf(a));
  const rest = stands[ALONE.stuckTimes];
  const least = Math.max(LEAST.samples, rest === undefined ? 0 : ALONE.times * lengthOf(rest));
  const extent = columnExtent(values);
  const usual = USUAL * median(values);
  const isOne = (stand: Stand) => {
    const value = values[stand.first];
    const isUsual = value > usual && value > extent.low && value < extent.high;
    return isUsual && lengthOf(stand) >= least && timeAt(sampling, stand.last) - timeAt(sampling, stand.first) >= LEAST.seconds;
  };
  const alone = stands.filter(isOne);
  if (alone.length === 0) return [];
  const spans = alone.map(({ first, last }) => ({ from: seconds(timeAt(sampling, first)), to: seconds(timeAt(sampling, last)) }));
  return isAliveElsewhere(values, rangeOfStill(channel), alone) ? spans : spans.filter((span) => pumpSwitched(sight, span));
});

const lengthOf = ({ first, last }: Stand): number => last - first + 1;

/** Stretches of equal readings, those of a few samples left out. */
function standsIn(values: ArrayLike<number>): Stand[] {
  const stands: Stand[] = [];
  for (let i = 1, first = 0; i <= values.length; i++) {
    if (i < values.length && values[i] === values[i - 1]) continue;
    if (i - first >= 3) stands.push({ first, last: i - 1 });
    first = i;
  }
  return stands;
}

/** Whether the reading changes in most of the quiet windows outside of some stretches. */
function isAliveElsewhere(values: ArrayLike<number>, still: number, without: readonly Stand[]): boolean {
  let [quiet, alive] = [0, 0];
  for (let from = 0; from + QUIET.samples <= values.length; from += QUIET.samples) {
    const end = from + QUIET.samples;
    if (without.some(({ first, last }) => first < end && last >= from)) continue;
    let [low, high] = [values[from], values[from]];
    for (let i = from; i < end; i++) {
      if (values[i] < low) low = values[i];
      if (values[i] > high) high = values[i];
    }
    if (!(high - low <= still)) continue;
    quiet++;
    if (high > low) alive++;
  }
  return quiet >= QUIET.least && alive >= QUIET.alive * quiet;
}
