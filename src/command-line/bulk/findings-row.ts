import type { FindingsDocument } from "../../../shared/schemas/findings-document";

type Cell = string | number | boolean | null;
type Column = {
  readonly name: string;
  readonly type: "STRING" | "DOUBLE" | "BOOLEAN";
  readonly about: string;
  readonly of: (d: FindingsDocument, log: string) => Cell;
};

const text = (name: string, about: string, of: Column["of"]): Column => ({ name, type: "STRING", about, of });
const number = (name: string, about: string, of: Column["of"]): Column => ({ name, type: "DOUBLE", about, of });
const flag = (name: string, about: string, of: Column["of"]): Column => ({ name, type: "BOOLEAN", about, of });

const worst = (values: readonly number[]): number | null => (values.length === 0 ? null : values.reduce((a, b) => Math.max(a, b)));

/** One row a log: the columns of findings.parquet, in order. SI; null where not known. The README of a bulk run is written from this list. */
export const FINDINGS_COLUMNS: readonly Column[] = [
  text("log", "path of the log from the folder", (_, log) => log),
  text("sha256", "fingerprint of the first file", (d) => d.record.files[0]?.sha256 ?? null),
  text("program", "version that wrote the findings", (d) => d.program),
  text("error", "why the log could not be read; null where it was", (d) => d.error?.message ?? null),
  text("from", "first instant, ISO 8601 UTC, or seconds", (d) => (d.record.from === null ? null : String(d.record.from))),
  text("to", "last instant", (d) => (d.record.to === null ? null : String(d.record.to))),
  number("rows", "rows accepted", (d) => d.record.rows.accepted),
  number("rejected", "rows rejected", (d) => d.record.rows.rejected),
  number("questions", "questions left to a person", (d) => d.record.questions.length),
  text("pump_basis", "what the pump state rests on", (d) => d.running.basis),
  number("starts", "starts of the pump", (d) => d.cycling.starts),
  number("peak_starts_per_hour", "most starts in any rolling hour", (d) => d.cycling.peakStartsPerHour),
  number("short_cycles", "complete runs shorter than the limit", (d) => d.cycling.shortCycle.count),
  number("median_run_s", "median run, s", (d) => d.cycling.medianRunS),
  number("median_rest_s", "median rest, s", (d) => d.cycling.medianRestS),
  number("oscillation_episodes", "stretches that oscillate", (d) => d.oscillation.episodes.length),
  number("oscillation_height_pa", "largest height from crest to trough, Pa", (d) =>
    worst(d.oscillation.episodes.flatMap((e) => e.peakToPeakPa?.value ?? [])),
  ),
  number("oscillation_period_s", "period of the first stretch, s", (d) => d.oscillation.episodes[0]?.periodS?.value ?? null),
  number("drift_windows", "stretches of steady flow", (d) => d.drift.windows.length),
  number("drift_over", "of these over the limit", (d) => d.drift.windows.filter((w) => w.over).length),
  number("set_pressure_pa", "set pressure used, Pa gauge", (d) => d.tracking.setPressurePa),
  number("share_within_band", "share of running time within the band", (d) => d.tracking.shareWithinBand),
  number("lowest_pa", "lowest pressure, Pa gauge", (d) => d.tracking.lowestPa),
  number("highest_pa", "highest pressure, Pa gauge", (d) => d.tracking.highestPa),
  number("gas_constant_j", "pressure times gas volume of the tank, J", (d) => d.tank.gasConstantJ?.value ?? null),
  number("empties_at_pa", "pressure at which the tank empties, Pa gauge", (d) => d.tank.emptiesAtPa?.value ?? null),
  number("leak_m3s", "leak-down, m3/s", (d) => d.leak.flowM3s?.value ?? null),
  text("first_cause", "likeliest cause", (d) => d.causes[0]?.id ?? null),
  number("first_confidence", "its confidence", (d) => d.causes[0]?.confidence ?? null),
  text("second_cause", "second cause", (d) => d.causes[1]?.id ?? null),
  number("second_confidence", "its confidence", (d) => d.causes[1]?.confidence ?? null),
  flag("over_limit", "whether any finding breaks a limit", (d) => (d.error === null ? d.findings.some((f) => f.overLimit === true) : null)),
  text("cannot_tell", "what the log could not show, ids", (d) => d.cannotTell.map((c) => `${c.about}: ${c.id}`).join("; ")),
];
