import { findingOf } from "../../../shared/findings/finding";
import type { PredictedSpan } from "../../../shared/findings/what-if";
import type { StretchId } from "../../../shared/wording/what-if";
import type { Visit } from "../../state/visit-state";

export type Stretch = { readonly id: StretchId; readonly span: PredictedSpan };

const HOUR = 3600;
const DAY = 86_400;
/** Longer than this the model is run over three days only, or a moved slider would wait for its numbers. */
const LONGEST = 14 * DAY;

/** Hours of the record that are worth looking at closely while something is changed. */
export function stretchesOf({ analysis, outline }: Pick<Visit, "analysis" | "outline">): readonly Stretch[] {
  const end = outline.duration;
  const hourFrom = (t: number): PredictedSpan => {
    const from = Math.max(0, Math.min(t, end - HOUR));
    return { from, to: Math.min(end, from + HOUR) };
  };
  const busiest = findingOf(analysis.outcomes, "cycling")?.peakHour ?? null;
  const swing = findingOf(analysis.outcomes, "oscillation")?.episodes.reduce((a, b) => (b.to - b.from > a.to - a.from ? b : a)) ?? null;
  return [
    { id: busiest === null ? "first" : "busiest", span: hourFrom(busiest?.from ?? 0) },
    ...(swing === null ? [] : [{ id: "swinging" as const, span: hourFrom(swing.from) }]),
  ];
}

/** What the numbers are worked out over: the whole record, or of a very long one the three days around a stretch. */
export function longStretch(duration: number, around: PredictedSpan): { readonly id: "whole" | "days"; readonly span: PredictedSpan } {
  if (duration <= LONGEST) return { id: "whole", span: { from: 0, to: duration } };
  const from = Math.max(0, Math.min(duration - 3 * DAY, (around.from + around.to) / 2 - 1.5 * DAY));
  return { id: "days", span: { from, to: from + 3 * DAY } };
}

/** The middle of a stretch, short enough that single cycles can be seen. */
export function closeUp({ from, to }: PredictedSpan): PredictedSpan {
  const middle = (from + to) / 2;
  const half = Math.min((to - from) / 2, HOUR / 6);
  return { from: middle - half, to: middle + half };
}
