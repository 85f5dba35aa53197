import type { Span } from "../../shared/findings/span";

/** Whether an instant lies in one of some spans. */
export const isWithin = (spans: readonly Span[], t: number): boolean => spans.some(({ from, to }) => t >= from && t <= to);
