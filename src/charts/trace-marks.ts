import type { Analysis } from "../../shared/findings/analysis";
import { findingOf } from "../../shared/findings/finding";
import type { Span } from "../../shared/findings/span";
import type { SiteFacts } from "../../shared/site/site-facts";
import { MARK_WORDS } from "../../shared/wording/chart";
import type { ChartMark } from "./chart-spec";
import type { TraceSeries } from "./trace-series";

type Level = { readonly at: number; readonly name: string; readonly dash: readonly number[] };

/**
 * The lines a pressure is read against, from the site facts and from the log where the facts are silent.
 * @param say SI to the text beside a line     @param toShown SI to the unit of the axis
 */
export function pressureMarks(
  site: SiteFacts,
  analysis: Analysis | null,
  toShown: (si: number) => number,
  say: (si: number) => string,
): readonly ChartMark[] {
  const outcomes = analysis?.outcomes ?? [];
  const cycling = findingOf(outcomes, "cycling");
  const tank = findingOf(outcomes, "tank-charge");
  const setPressure = site.setPressure?.value ?? findingOf(outcomes, "tracking")?.setPressure ?? null;
  const levels: readonly (Level | null)[] = [
    level(site.tankRatedPressure?.value ?? null, MARK_WORDS.tankMark, [1, 3]),
    level(setPressure, MARK_WORDS.setPressure, []),
    level(site.cutOut?.value ?? cycling?.cutOut?.value ?? null, MARK_WORDS.cutOut, [8, 4]),
    level(site.cutIn?.value ?? cycling?.cutIn?.value ?? null, MARK_WORDS.cutIn, [8, 4]),
    level(tank?.emptiesAt?.value ?? null, MARK_WORDS.tankEmpties, [2, 2]),
  ];
  const lines = levels.flatMap((found): readonly ChartMark[] =>
    found === null ? [] : [{ kind: "line", axis: "y", at: toShown(found.at), label: `${found.name} ${say(found.at)}`, dash: found.dash }],
  );
  if (setPressure === null) return lines;
  const band = site.limits.band.value;
  return [{ kind: "area", axis: "y", from: toShown(setPressure - band), to: toShown(setPressure + band), label: "" }, ...lines];
}

const level = (at: number | null, name: string, dash: readonly number[]): Level | null => (at === null ? null : { at, name, dash });

/** Marks far above or below the trace would press it flat: beyond this part of its height they are left to the words. */
const REACH = 0.75;

/** The axis: the trace with room around it, widened by the marks within reach. */
export function axisRange(low: number, high: number, marks: readonly ChartMark[]): { readonly low: number; readonly high: number } {
  const height = high - low || Math.abs(high) * 0.1 || 1;
  let [least, greatest] = [low, high];
  for (const mark of marks) {
    for (const at of mark.kind === "line" ? [mark.at] : [mark.from, mark.to]) {
      if (at > high + REACH * height || at < low - REACH * height) continue;
      least = Math.min(least, at);
      greatest = Math.max(greatest, at);
    }
  }
  const room = (greatest - least || height) * 0.06;
  return { low: low === 0 && least === 0 ? 0 : least - room, high: greatest + room };
}

/** Least and greatest value of the points in sight; null where there is none. O(points). */
export function rangeInSight(series: TraceSeries, window: Span): { readonly low: number; readonly high: number } | null {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < series.times.length; i++) {
    if (series.times[i] < window.from || series.times[i] > window.to) continue;
    for (const line of series.values) {
      const value = line[i];
      if (value === null || value === undefined) continue;
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  return low <= high ? { low, high } : null;
}
