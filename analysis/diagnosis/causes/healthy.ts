import type { CauseTable } from "./cause-table";

/**
 * Nothing is wrong that this log could show: every answer comes as often as it does by itself, so the table is empty. Competes like any
 * other. Met more often than any one fault, since a log is also taken to be sure.
 */
export const healthy: CauseTable = {
  id: "healthy",
  prior: 2.5,
  weights: {},
};
