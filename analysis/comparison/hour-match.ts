import type { VisitMeasures } from "../../shared/findings/comparison";
import type { Match } from "./demand-match";

const [DAY, HOUR] = [86400, 3600];
/** Records of unknown hours are taken for the same part of a day where their lengths differ by no more than this share. */
const LIKE_LENGTH = 0.1;

type Timed = Pick<VisitMeasures, "blockS" | "beginsS"> & { readonly count: number };

/**
 * Where no flow tells what was drawn, the hour of the day is the next best witness of use: a night is not set against a day. Each hour that both
 * logged weighs the same, however often either logged it; an hour that one lacks weighs nothing. Without a clock whole days are set against whole
 * days, whatever hour they begin at; less than a day only against as long a piece.
 */
export function matchHours(before: VisitMeasures, after: VisitMeasures): Match | null {
  const sides = [before, after].map(({ blockS, beginsS, blocks }): Timed => ({ blockS, beginsS, count: blocks.starts.length }));
  const hours = sides.map(hoursOf);
  const [a, b] = hours;
  if (a === null || b === null) return matchWholeDays(sides);
  const weigh = (own: readonly number[], other: readonly number[]) => own.map((hour) => (other.includes(hour) ? 1 / times(own, hour) : 0));
  return matchOf("hours", weigh(a, b), weigh(b, a));
}

/** The hour of the day in the middle of each block; null where the clock is not known. */
function hoursOf({ blockS, beginsS, count }: Timed): readonly number[] | null {
  if (beginsS === null) return null;
  return Array.from({ length: count }, (_, i) => Math.floor(((beginsS + (i + 0.5) * blockS) % DAY) / HOUR));
}

const times = (hours: readonly number[], hour: number): number => hours.filter((h) => h === hour).length;

function matchWholeDays(sides: readonly Timed[]): Match | null {
  const [a, b] = sides.map(({ blockS, count }) => blockS * count);
  if (Math.abs(a - b) <= LIKE_LENGTH * Math.max(a, b)) return null;
  const weights = sides.map(({ blockS, count }) => {
    const within = Math.floor((blockS * count) / DAY + LIKE_LENGTH / 24) * DAY;
    return Array.from({ length: count }, (_, i) => (i * blockS < within - blockS / 2 ? 1 : 0));
  });
  return matchOf("days", weights[0], weights[1]);
}

function matchOf(by: "hours" | "days", before: readonly number[], after: readonly number[]): Match {
  const used = [...before, ...after].filter((weight) => weight > 0).length;
  return { by, before, after, share: used / (before.length + after.length) };
}
