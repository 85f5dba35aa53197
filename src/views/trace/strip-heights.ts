import type { Strip } from "../../charts/strips";

/** Pressure is what the visit is about: it gets the most height. On a narrow page only the first strips stand, so that the story stays readable. */
export function stripHeights(strips: readonly Strip[], wide: boolean): readonly number[] {
  return strips.map((strip, i) => {
    if (!wide) return i === 0 ? 110 : 56;
    if (i === 0) return strips.length === 1 ? 320 : 230;
    return strip.quantity === "state" ? 44 : 96;
  });
}
