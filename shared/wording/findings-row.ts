/** What the columns of a table of many logs mean. */
export const FINDINGS_COLUMNS_IN_WORDS = {
  log: "path of the log from the folder",
  sha256: "fingerprint of the first file",
  program: "version that wrote the findings",
  error: "why the log could not be read; null where it was",
  from: "first instant, ISO 8601 UTC, or seconds",
  to: "last instant",
  rows: "rows accepted",
  rejected: "rows rejected",
  questions: "questions left to a person",
  pump_basis: "what the pump state rests on",
  starts: "starts of the pump",
  peak_starts_per_hour: "most starts in any rolling hour",
  short_cycles: "complete runs shorter than the limit",
  median_run_s: "median run, s",
  median_rest_s: "median rest, s",
  oscillation_episodes: "stretches that oscillate",
  oscillation_height_pa: "largest height from crest to trough, Pa",
  oscillation_period_s: "period of the first stretch, s",
  drift_windows: "stretches of steady flow",
  drift_over: "of these over the limit",
  set_pressure_pa: "set pressure used, Pa gauge",
  share_within_band: "share of running time within the band",
  lowest_pa: "lowest pressure, Pa gauge",
  highest_pa: "highest pressure, Pa gauge",
  gas_constant_j: "pressure times gas volume of the tank, J",
  empties_at_pa: "pressure at which the tank empties, Pa gauge",
  leak_m3s: "leak-down, m3/s",
  first_cause: "likeliest cause",
  first_confidence: "its confidence",
  second_cause: "second cause",
  second_confidence: "its confidence",
  over_limit: "whether any finding breaks a limit",
  cannot_tell: "what the log could not show, ids",
} as const;

/** A log of many that was not read, and the last line under the table. */
export const notRead = (kind: string): string => `not read: ${kind}`;
export const sayCounts = (logs: number, overLimit: number, unread: number): string =>
  `${logs} logs, ${overLimit} over a limit, ${unread} not read.`;
export const sayOneDone = (done: number, all: number, log: string, isKept: boolean, error: string | null): string =>
  `${done} of ${all}  ${log}${isKept ? " (done before)" : ""}${error === null ? "" : `  ${error}`}`;
export const workerEnded = (code: number): string => `the worker ended with code ${code}`;
