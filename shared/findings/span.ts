import type { Seconds } from "../units/quantity";

/** A stretch of the record, s after its first instant. */
export type Span = { readonly from: Seconds; readonly to: Seconds };

export const spanLength = (span: Span): number => span.to - span.from;
