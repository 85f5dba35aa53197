import { findingOf } from "../../../shared/findings/finding";
import type { PredictedSpan } from "../../../shared/findings/what-if";
import type { Visit } from "../../state/visit-state";

export type Stretch = { readonly id: "busiest" | "swinging" | "whole"; readonly name: string; readonly span: PredictedSpan };

const HOUR = 3600;

/** Stretches of the record that are worth running again: the whole for the measures, single hours for a close look at the trace. */
export function stretchesOf({ analysis, outline }: Pick<Visit, "analysis" | "outline">): readonly Stretch[] {
  const end = outline.duration;
  const hourFrom = (t: number): PredictedSpan => {
    const from = Math.max(0, Math.min(t, end - HOUR));
    return { from, to: Math.min(end, from + HOUR) };
  };
  const busiest = findingOf(analysis.outcomes, "cycling")?.peakHour ?? null;
  const swing = findingOf(analysis.outcomes, "oscillation")?.episodes.reduce((a, b) => (b.to - b.from > a.to - a.from ? b : a)) ?? null;
  return [
    { id: "whole", name: "The whole record", span: { from: 0, to: end } },
    { id: "busiest", name: busiest === null ? "The first hour" : "The hour with most starts", span: hourFrom(busiest?.from ?? 0) },
    ...(swing === null ? [] : [{ id: "swinging" as const, name: "The hour of the longest oscillation", span: hourFrom(swing.from) }]),
  ];
}
