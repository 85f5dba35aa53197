import type { Run } from "../../../shared/findings/segment";
import { type Clock, LONGEST_BELIEVED } from "../../../shared/record/clock";
import { LOOK_WORDS } from "../../../shared/wording/chart";
import { zoneOffset } from "../time-axis";
import { type Look, nothing } from "./look";

const HOUR = 3600;

/**
 * Starts in each hour of the site's clock (or each hour since the beginning). A run that was already going when the log began is no start.
 * Nothing where a damaged clock says more than a century, whose empty hours would fill the memory.
 */
export function startsByHour(runs: readonly Run[], duration: number, clock: Clock, allowed: number | null): Look {
  if (runs.length === 0 || !(duration > 0) || duration > LONGEST_BELIEVED) return nothing("starts-by-hour");
  const shift = clock.kind === "absolute" ? clock.epoch + zoneOffset(clock.zone, clock.epoch) : 0;
  const firstHour = Math.floor(shift / HOUR);
  const hours = Math.floor((shift + duration) / HOUR) - firstHour + 1;
  const counts = new Array<number>(hours).fill(0);
  let starts = 0;
  for (const { from } of runs) {
    if (from <= 0) continue;
    counts[Math.floor((shift + from) / HOUR) - firstHour]++;
    starts++;
  }
  const begin = firstHour * HOUR - shift;
  const most = counts.reduce((a, b) => Math.max(a, b), 0);
  return {
    look: "starts-by-hour",
    state: "shown",
    x: { title: LOOK_WORDS.clockTime, shown: "time", low: begin, high: begin + hours * HOUR, isInstant: true },
    y: { title: LOOK_WORDS.startsInHour, shown: "count", low: 0, high: null },
    lines: [{ label: LOOK_WORDS.startsLine, hue: "speed", dash: [], draw: "bars" }],
    shaded: [],
    marks: allowed === null ? [] : [{ kind: "line", axis: "y", at: allowed, name: LOOK_WORDS.allowed, dash: [6, 3] }],
    xs: Float64Array.from(counts, (_, k) => begin + (k + 0.5) * HOUR),
    ys: [counts],
    numbers: {
      starts: { value: starts, shown: "count" },
      most: { value: most, shown: "count" },
      ...(allowed === null ? {} : { allowed: { value: allowed, shown: "count" as const } }),
    },
  };
}
