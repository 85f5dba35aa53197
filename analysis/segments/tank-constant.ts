import type { TriedHeat } from "./gas-heat-time";

/** A value with the interval that holds it in 95 of 100 logs. */
type Interval = { readonly value: number; readonly low: number; readonly high: number };

/**
 * The tank's own part K of what gives water as the pressure falls. Pipes, hoses, trapped air and the small vessel beside a heater give too, p^2 C (from V = K/p and
 * dV = C dp), but only the tank's gas shows the heat of its work: with a share s of it seen, what is the tank's own lies between s of the whole (pipes hide the
 * rest) and all of it (walls take the rest at once), and the log does not say where. Never less than what pipes leave at most.
 * Over all time constants and shares that were tried, by their likelihood; middle and 95 %, then the slope's own error beside it.
 * Its upper end is never below that of the whole, since at many a site pipes have no part to speak of; its lower end is that of soft pipes, whose part may be anything.
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
    return Array.from({ length: STEPS }, (_, i) => {
      const place = (i + 0.5) / STEPS;
      return { usual: (1 - pipesAt(place)) / relative, soft: (1 - most * place) / relative, likely: likely / STEPS };
    });
  });
  const [low, softMiddle] = [0.025, 0.5].map((share) => quantileOf(parts, ({ soft }) => soft, share));
  const [middle, high] = [0.5, 0.975].map((share) => quantileOf(parts, ({ usual }) => usual, share));
  const value = give.value * middle;
  return {
    value,
    low: (give.value * softMiddle) / (1 + Math.hypot(slope.high, softMiddle / low - 1)),
    high: Math.max(give.high, value / Math.max(LEAST, 1 - Math.hypot(slope.low, 1 - middle / high))),
  };
}

function quantileOf<P extends { readonly likely: number }>(parts: readonly P[], of: (part: P) => number, share: number): number {
  const sorted = [...parts].sort((a, b) => of(a) - of(b));
  let sum = 0;
  for (const part of sorted) {
    sum += part.likely;
    if (sum >= share) return of(part);
  }
  return of(sorted[sorted.length - 1]);
}

/** Places between the two ends at which a part is taken: as good as evenly spread, and at either end rather too far out. */
const STEPS = 8;
/**
 * Part of all that gives that hard pipes without air have. From there to a vessel beside a heater is a matter of decades, and no size of pipes and hoses is likelier
 * than another by itself: the part that is not the tank's is spread evenly in its logarithm (Jeffreys's prior of a scale).
 */
const HARD_PIPES = 0.01;
const LEAST = 0.05; // of the slope: a K twenty times as large is as good as unbounded
