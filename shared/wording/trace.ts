/** What stands on and around the trace. */
export const TRACE_WORDS = {
  predicted: "predicted with the change",
} as const;
