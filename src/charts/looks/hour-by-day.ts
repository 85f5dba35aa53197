import type { Run } from "../../../shared/findings/segment";
import { type Clock, LONGEST_BELIEVED } from "../../../shared/record/clock";
import { localUnix } from "../time-axis";

const DAY = 86_400;

/** Starts by day and hour of the site's clock; an hour that the record does not reach is null. */
export type HourByDay = readonly { readonly day: number; readonly starts: readonly (number | null)[] }[];

/** One row a day, 24 hours each. Null where the log has no clock, or one that says more than a century. */
export function hourByDay(runs: readonly Run[], duration: number, clock: Clock): HourByDay | null {
  if (clock.kind === "elapsed" || duration > LONGEST_BELIEVED) return null;
  const [begin, end] = [localUnix(0, clock), localUnix(duration, clock)];
  const first = Math.floor(begin / DAY);
  const days = Math.floor(end / DAY) - first + 1;
  const counts = Array.from({ length: days }, (_, d) =>
    Array.from({ length: 24 }, (__, h): number | null => {
      const at = (first + d) * DAY + h * 3600;
      return at + 3600 <= begin || at > end ? null : 0;
    }),
  );
  for (const { from } of runs) {
    if (from <= 0) continue;
    const at = localUnix(from, clock) - first * DAY;
    const row = counts[Math.floor(at / DAY)];
    const hour = Math.floor((at % DAY) / 3600);
    row[hour] = (row[hour] ?? 0) + 1;
  }
  return counts.map((starts, d) => ({ day: (first + d) * DAY, starts }));
}
