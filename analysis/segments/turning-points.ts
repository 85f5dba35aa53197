/** A turn of a curve: a low from which it rises, or a high from which it falls. */
export type Turn = { readonly index: number; readonly kind: "low" | "high" };

/**
 * Turning points of values[first..last] that stand out by at least `size` on either side; lows and highs by turns. O(n)
 * The ends of the stretch are no turns. Missing values are passed over.
 */
export function turningPoints(values: ArrayLike<number>, first: number, last: number, size: number): Turn[] {
  const turns: Turn[] = [];
  let heading: "up" | "down" | null = null;
  let lowest = first;
  let highest = first;
  for (let i = first; i <= last; i++) {
    const value = values[i];
    if (Number.isNaN(value)) continue;
    if (!(value >= values[lowest])) lowest = i;
    if (!(value <= values[highest])) highest = i;
    if (heading !== "up" && value - values[lowest] >= size) {
      if (lowest > first) turns.push({ index: lowest, kind: "low" });
      heading = "up";
      highest = i;
    } else if (heading !== "down" && values[highest] - value >= size) {
      if (highest > first) turns.push({ index: highest, kind: "high" });
      heading = "down";
      lowest = i;
    }
  }
  return turns;
}
