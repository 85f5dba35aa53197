import type { FindingsDocument } from "../../../shared/schemas/findings-document";
import { FINDINGS_COLUMNS_IN_WORDS } from "../../../shared/wording/findings-row";

type Cell = string | number | boolean | null;
type ColumnName = keyof typeof FINDINGS_COLUMNS_IN_WORDS;
type Column = {
  readonly name: string;
  readonly type: "STRING" | "DOUBLE" | "BOOLEAN";
  readonly about: string;
  readonly of: (d: FindingsDocument, log: string) => Cell;
};

const text = (name: ColumnName, of: Column["of"]): Column => ({ name, type: "STRING", about: FINDINGS_COLUMNS_IN_WORDS[name], of });
const number = (name: ColumnName, of: Column["of"]): Column => ({ name, type: "DOUBLE", about: FINDINGS_COLUMNS_IN_WORDS[name], of });
const flag = (name: ColumnName, of: Column["of"]): Column => ({ name, type: "BOOLEAN", about: FINDINGS_COLUMNS_IN_WORDS[name], of });

const worst = (values: readonly number[]): number | null => (values.length === 0 ? null : values.reduce((a, b) => Math.max(a, b)));

/** One row a log: the columns of findings.parquet, in order. SI; null where not known. The README of a bulk run is written from this list. */
export const FINDINGS_COLUMNS: readonly Column[] = [
  text("log", (_, log) => log),
  text("sha256", (d) => d.record.files[0]?.sha256 ?? null),
  text("program", (d) => d.program),
  text("error", (d) => d.error?.message ?? null),
  text("from", (d) => (d.record.from === null ? null : String(d.record.from))),
  text("to", (d) => (d.record.to === null ? null : String(d.record.to))),
  number("rows", (d) => d.record.rows.accepted),
  number("rejected", (d) => d.record.rows.rejected),
  number("questions", (d) => d.record.questions.length),
  text("pump_basis", (d) => d.running.basis),
  number("starts", (d) => d.cycling.starts),
  number("peak_starts_per_hour", (d) => d.cycling.peakStartsPerHour),
  number("short_cycles", (d) => d.cycling.shortCycle.count),
  number("median_run_s", (d) => d.cycling.medianRunS),
  number("median_rest_s", (d) => d.cycling.medianRestS),
  number("oscillation_episodes", (d) => d.oscillation.episodes.length),
  number("oscillation_height_pa", (d) => worst(d.oscillation.episodes.flatMap((e) => e.peakToPeakPa?.value ?? []))),
  number("oscillation_period_s", (d) => d.oscillation.episodes[0]?.periodS?.value ?? null),
  number("drift_windows", (d) => d.drift.windows.length),
  number("drift_over", (d) => d.drift.windows.filter((w) => w.over).length),
  number("set_pressure_pa", (d) => d.tracking.setPressurePa),
  number("share_within_band", (d) => d.tracking.shareWithinBand),
  number("lowest_pa", (d) => d.tracking.lowestPa),
  number("highest_pa", (d) => d.tracking.highestPa),
  number("gas_constant_j", (d) => d.tank.gasConstantJ?.value ?? null),
  number("empties_at_pa", (d) => d.tank.emptiesAtPa?.value ?? null),
  number("leak_m3s", (d) => d.leak.flowM3s?.value ?? null),
  text("first_cause", (d) => d.causes[0]?.id ?? null),
  number("first_confidence", (d) => d.causes[0]?.confidence ?? null),
  text("second_cause", (d) => d.causes[1]?.id ?? null),
  number("second_confidence", (d) => d.causes[1]?.confidence ?? null),
  flag("over_limit", (d) => (d.error === null ? d.findings.some((f) => f.overLimit === true) : null)),
  text("cannot_tell", (d) => d.cannotTell.map((c) => `${c.about}: ${c.id}`).join("; ")),
];
