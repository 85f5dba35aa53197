import { type Span, spanLength } from "../../../shared/findings/span";
import { seconds } from "../../../shared/units/quantity";

/** More places than this are a pattern: it is read from where they lie closest together, not from one of them. */
const MANY = 12;
/** Width in which they are counted, s: some ten cycles of a pump that starts too often. */
const CLOSE = 900;

/** Where to look first: the longest of a few places; of many short ones the quarter of an hour that holds most. Places in order of time. O(n). */
export function bestPlace(places: readonly Span[]): Span {
  const longest = places.reduce((a, b) => (spanLength(b) > spanLength(a) ? b : a));
  const short = places.filter((place) => spanLength(place) < CLOSE);
  if (short.length < MANY) return longest;
  let first = 0;
  let best = { from: 0, count: 0 };
  for (let i = 0; i < short.length; i++) {
    while (short[i].to - short[first].from > CLOSE) first++;
    if (i - first + 1 > best.count) best = { from: short[first].from, count: i - first + 1 };
  }
  return { from: seconds(best.from), to: seconds(best.from + CLOSE) };
}
