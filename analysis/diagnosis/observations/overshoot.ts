import { mainChannel } from "../../../shared/record/find-channel";
import { quantile } from "../../numerics/order-statistics";
import { isFixedSpeed, type Looks, levelFor, setPressureOf } from "./sight";

/** A pressure reached for a thousandth of the time is more than a single reading or a knock of the pipe. */
const MOMENT = 0.001;
/** Over the set pressure: a boost before sleep takes some hundredths; past a seventh no drive is meant to go. Common practice, no source. */
const EDGES = [1.07, 1.14] as const;

export const overshootLooks: Pick<Looks, "overshoot"> = {
  /**
   * How far over its set pressure a drive lets the pressure go. An integrator that is too quick has wound up before the pressure is back, and what
   * was wound up is over; the less give the tank has, the higher the same surplus of water takes it. A drive may lift the pressure a little before it sleeps.
   */
  overshoot(sight) {
    const [channel, set] = [mainChannel(sight.record, "pressure"), setPressureOf(sight)];
    if (channel === null || isFixedSpeed(sight.site) || set === null || !(set > 0)) return null;
    const highest = quantile(channel.values, 1 - MOMENT);
    if (Number.isNaN(highest)) return null;
    return { level: levelFor(highest / set, EDGES, ["little", "some", "large"]), numbers: { highest, setPressure: set } };
  },
};
