import type { TriedHeat } from "./gas-heat-time";

/** A value with the interval that holds it in 95 of 100 logs. */
type Interval = { readonly value: number; readonly low: number; readonly high: number };

/**
 * The tank's own part K of what gives water as the pressure falls. Pipes, hoses, trapped air and the small vessel beside a heater give too, p^2 C (from V = K/p and
 * dV = C dp), but only the tank's gas shows the heat of its work: with a share s of it seen, what is the tank's own lies between s of the whole (pipes hide the
 * rest) and all of it (walls take the rest at once), and the log does not say where. Never less than what pipes leave at most.
 * Over all time constants and shares that were tried, by their likelihood; middle and 95 %, then the slope's own error beside it.
 * Its upper end is never below that of the whole: at many a site pipes have no part to speak of.
 * @param give K with all that gives, J   @param slope reach of the slope 1/K to either side, as a share of it
 * @param pipes the greatest part of `give` that is not the tank's
 */
export function ownConstant(
  give: Interval,
  slope: { readonly low: number; readonly high: number },
  tried: readonly TriedHeat[],
  pipes: { readonly most: number; readonly unseen: number },
): Interval {
  const parts = tried.flatMap(({ time, share, slope: relative, likely }) => {
    const least = time === 0 ? 1 - pipes.unseen : Math.max(share, 1 - pipes.most);
    const most = 1 - least;
    const pipesAt = (place: number) => (most > HARD_PIPES ? HARD_PIPES * (most / HARD_PIPES) ** place : most * place);
    return Array.from({ length: STEPS }, (_, i) => ({
      value: (1 - pipesAt((i + 0.5) / STEPS)) / relative,
      likely: likely / STEPS,
    }));
  });
  parts.sort((a, b) => a.value - b.value);
  const at = (share: number) => {
    let sum = 0;
    for (const { value, likely } of parts) {
      sum += likely;
      if (sum >= share) return value;
    }
    return parts[parts.length - 1].value;
  };
  const [low, middle, high] = [0.025, 0.5, 0.975].map(at);
  const value = give.value * middle;
  return {
    value,
    low: value / (1 + Math.hypot(slope.high, middle / low - 1)),
    high: Math.max(give.high, value / Math.max(LEAST, 1 - Math.hypot(slope.low, 1 - middle / high))),
  };
}

/** Places between the two ends at which a part is taken: as good as evenly spread. */
const STEPS = 16;
/**
 * Part of all that gives that hard pipes without air have. From there to a vessel beside a heater is a matter of decades, and no size of pipes and hoses is likelier
 * than another by itself: the part that is not the tank's is spread evenly in its logarithm (Jeffreys's prior of a scale).
 */
const HARD_PIPES = 0.01;
const LEAST = 0.05; // of the slope: a K twenty times as large is as good as unbounded
