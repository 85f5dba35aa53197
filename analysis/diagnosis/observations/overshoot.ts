import { mainChannel } from "../../../shared/record/find-channel";
import { PASCAL_PER_PSI } from "../../../shared/units/pressure";
import { quantile } from "../../numerics/order-statistics";
import { heldInTime } from "../../segments/held-in-time";
import { found, isFixedSpeed, type Looks, levelFor, setPressureOf } from "./sight";

/** A pressure reached for a thousandth of the time is more than a single reading or a knock of the pipe. */
const MOMENT = 0.001;
/**
 * Over the set pressure: a boost before sleep takes some hundredths, or 3 psi; past a seventh, or 6 psi where that is more, no drive is meant to go. A boost is set
 * as a pressure, so that at a low set pressure it is a large share. Common practice, no source.
 */
const EDGES = [
  { share: 0.07, least: 3 * PASCAL_PER_PSI },
  { share: 0.14, least: 6 * PASCAL_PER_PSI },
] as const;

export const overshootLooks: Pick<Looks, "overshoot"> = {
  /**
   * How far over its set pressure a drive lets the pressure go. An integrator that is too quick has wound up before the pressure is back, and what
   * was wound up is over; the less give the tank has, the higher the same surplus of water takes it. A drive may lift the pressure a little before it sleeps.
   * A swing that was found is asked of by itself: its crests are over too, and are no second witness.
   */
  overshoot(sight) {
    const [channel, set] = [mainChannel(sight.record, "pressure"), setPressureOf(sight)];
    if (channel === null || isFixedSpeed(sight.site) || set === null || !(set > 0)) return null;
    if (found(sight, "oscillation")?.episodes.some((e) => e.drivenBy !== "cycling")) return null;
    const highest = quantile(heldInTime(channel.values, channel.sampling), 1 - MOMENT);
    if (Number.isNaN(highest)) return null;
    const edges = EDGES.map(({ share, least }) => Math.max(share * set, least));
    return { level: levelFor(highest - set, edges, ["little", "some", "large"]), numbers: { highest, setPressure: set } };
  },
};
