import { mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { sampleInterval } from "../../faults/sample-interval";
import { quantile } from "../../numerics/order-statistics";
import { someValues } from "../../numerics/some-values";
import { levelStep } from "../../segments/pressure-noise";
import { turningPoints } from "../../segments/turning-points";
import { isFixedSpeed, type Looks } from "./sight";

/** A turn stands out of noise by so many spreads of it, and by this share of the top. */
const A_TURN = { noises: 8, share: 0.02 };
/** What comes within this share of the highest is at the top. */
const AT_TOP = 0.03;
/** Highest pressure that was there for more than a surge of the start: share of the record under it. */
const MOST = 0.98;
const NORMAL_95 = 1.96; // standard deviations of the normal distribution that hold 95 %
/** Means over so long are looked at, s: eddies die out in them. */
const MEAN_OVER = 10;
/** Either side of a low must hold so many of them: a cycle that goes by between two of them shows its lows anywhere. */
const LEAST_SAMPLES = 3;
const LEAST_LOWS = 5;
/** A switch waits for its cut-in, its own spread apart; a low over this share of the way from there to the top did not come from it. */
const WELL_ABOVE = 0.3;
/** So many of the lows between two tops must lie there. */
const SHARE = 0.5;
/** A top within this share of the cut-out that was given is the cut-out. */
const REACHES = 0.97;

/** Means of so many samples as come in `MEAN_OVER`; missing ones left out. */
function meansOf({ values, sampling }: Channel): Float64Array {
  const size = Math.max(1, Math.round(MEAN_OVER / Math.max(1e-9, sampleInterval(sampling)?.median ?? MEAN_OVER)));
  return Float64Array.from({ length: Math.floor(values.length / size) }, (_, k) => {
    let [sum, count] = [0, 0];
    for (let i = k * size; i < (k + 1) * size; i++) {
      if (Number.isNaN(values[i])) continue;
      sum += values[i];
      count++;
    }
    return sum / count;
  });
}

/** Spread of white noise with the same largest twentieth of second differences: eddies scatter the reading in runs only. */
function scatterOf(values: ArrayLike<number>): number {
  const seen = someValues(values);
  const bends = Float64Array.from({ length: Math.max(0, seen.length - 2) }, (_, i) => Math.abs(seen[i] - 2 * seen[i + 1] + seen[i + 2]));
  return quantile(bends, 0.95) / (NORMAL_95 * Math.sqrt(6));
}

/** Lowest pressures between one visit of the top and the next, Pa. */
function lowsBetweenTops(values: ArrayLike<number>, top: number, least: number): number[] {
  const turns = turningPoints(values, 0, values.length - 1, least);
  const lows: number[] = [];
  for (let k = 1; k + 1 < turns.length; k++) {
    const [before, low, after] = [turns[k - 1], turns[k], turns[k + 1]];
    if (low.kind !== "low" || Math.min(values[before.index], values[after.index]) < (1 - AT_TOP) * top) continue;
    if (Math.min(low.index - before.index, after.index - low.index) >= LEAST_SAMPLES) lows.push(values[low.index]);
  }
  return lows;
}

export const atTheTopLooks: Pick<Looks, "at-the-top"> = {
  /**
   * Whether a pump on a switch stops where the pressure is highest. It stops at its cut-out and starts at its cut-in, so that the pressure comes from the top down to
   * there before it can rise again. Where it goes down with a draw to anywhere and back to the same top, the pump runs on: the top is its own greatest head, under a
   * cut-out that it never reaches. By the pressure alone; whoever says when the pump ran is not asked.
   */
  "at-the-top"({ site, record }) {
    const channel = mainChannel(record, "pressure");
    if (channel === null || !isFixedSpeed(site) || channel.sampling.kind === "on-change") return null;
    const values = meansOf(channel);
    const top = quantile(someValues(values), MOST);
    if (!(top > 0)) return null;
    const noise = Math.hypot(scatterOf(values), levelStep(values) / Math.sqrt(12));
    const lows = lowsBetweenTops(values, top, Math.max(A_TURN.share * top, A_TURN.noises * noise));
    if (lows.length < LEAST_LOWS) return null;
    if (site.cutOut !== null && top >= REACHES * site.cutOut.value) return { level: "turns", numbers: { top } };
    const start = site.cutIn?.value ?? quantile(lows, 0.1);
    const above = lows.filter((low) => low - start > WELL_ABOVE * (top - start)).length / lows.length;
    return { level: above > SHARE ? "runs-on" : "turns", numbers: { top, lows: lows.length, share: above } };
  },
};
