import type { Seconds } from "../units/quantity";

/** Where the record's second 0 stands in the world. A stamp without a zone is read as UTC, and the page says "local time of the logger". */
export type Clock =
  | {
      readonly kind: "absolute";
      /** Unix time of the record's first instant, s. */
      readonly epoch: number;
      /** IANA name or offset ("+02:00") where the file or the person said so, else null. */
      readonly zone: string | null;
    }
  | { readonly kind: "elapsed" };

/** No log runs for a century, s; a clock that says so is damaged, and what is told by its hours and days is not told. */
export const LONGEST_BELIEVED = 36_525 * 86_400;

/** An instant of the record as the findings document writes it: ISO 8601 UTC for an absolute clock, else seconds from the first row. */
export function writeInstant(clock: Clock, t: Seconds): string | number {
  if (clock.kind === "elapsed") return Math.round(t * 1000) / 1000;
  return new Date(Math.round((clock.epoch + t) * 1000)).toISOString();
}
