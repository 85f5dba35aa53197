import { quantile } from "../../numerics/order-statistics";
import { PRACTICE_SHARE_OF_MINUTE, SENSOR_WITHIN } from "../practice";
import { fallsBeforeStarts } from "./falls-before-starts";
import { type LastFall, lastFall } from "./last-fall";
import { cutInOf, isFixedSpeed, type Looks, levelFor, type Sight, setPressureOf } from "./sight";
import { usualCharge } from "./tank";

const MINUTE = 60; // s
const LEAST_FALLS = 4;
/**
 * How many times what is usually drawn the pump is rated for. A drive's pump is chosen for the most that is drawn at once, and a single draw is a fifth of that
 * or less; a switch's pump is hardly larger than what is drawn. Edges by half of that, and again a third of it: the draw of most of the pump's flow
 * whenever it starts. Common practice, no source; on sites used for fitting sound drives came to 5.3 and more, sound switches to 2.8.
 */
const EDGES = { drive: [1.5, 4.5], switch: [0.7, 2.2] } as const;
/** A fall within a sample may have been any faster: whether it is usual cannot be told. */
const SEEN = 1.5; // samples

/** What the tank of the facts would have with the usual charge, J; without a volume a drive's is that of practice. */
function soundTank({ site }: Sight, charge: number, rated: number): number | null {
  const volume = site.tankVolume?.value ?? (isFixedSpeed(site) ? null : PRACTICE_SHARE_OF_MINUTE * rated * MINUTE);
  return volume === null ? null : volume * (charge + site.atmosphere.value);
}

/** Behind a long pipe the sensor sees the water in the pipe before the tank has moved: a quick fall there is the pipe's. */
const isFar = ({ sensorToTank }: Sight["site"]) => sensorToTank !== null && sensorToTank.value > SENSOR_WITHIN;

export const usualFallLooks: Pick<Looks, "usual-fall"> = {
  /**
   * How fast the pressure usually falls before the pump starts. There the tank alone feeds the draw, q = K d(1/p)/dt. No meter says q, but what is
   * usually drawn is some small part of what the pump is rated for: by the falls of a sound tank Q / q is 5 to 50. A tank that is empty or water-logged has
   * next to no K, and every tap seems to draw more than the pump can give. Of all falls the middle one, so that no single draw decides.
   */
  "usual-fall"(sight) {
    const rated = sight.site.pumpRatedFlow?.value ?? null;
    const [charge, held] = [usualCharge(sight), isFixedSpeed(sight.site) ? cutInOf(sight) : setPressureOf(sight)];
    if (rated === null || charge === null || held === null || !(held > 0)) return null;
    const [falls, sound] = [fallsBeforeStarts(sight, held), soundTank(sight, charge, rated)];
    if (falls === null || sound === null) return null;
    const seen = falls.stretches.flatMap((s) => lastFall(falls.times, falls.pressure, s, falls.noise, sight.site.atmosphere.value) ?? []);
    if (seen.length < LEAST_FALLS) return null;
    const middle = (of: (fall: LastFall) => number) => quantile(seen.map(of), 0.5);
    const ratio = middle(({ time, rise }) => (rated * time) / rise / sound);
    const level = levelFor(ratio, EDGES[isFixedSpeed(sight.site) ? "switch" : "drive"], ["sudden", "quick", "usual"]);
    if (level !== "usual" && isFar(sight.site)) return null;
    if (level === "usual" && middle(({ samples }) => samples) < SEEN) return null;
    return { level, numbers: { ratio, time: middle(({ time }) => time), falls: seen.length } };
  },
};
