import { parseArgs } from "node:util";
import type { ImportChoices } from "../../analysis/import/import-log";
import { CHANNEL_ROLES, type ChannelRole } from "../../shared/record/channel-role";
import { METRIC_UNITS, type UnitChoice, US_UNITS } from "../../shared/units/unit-choice";
import { USAGE } from "../../shared/wording/usage";

/** A wrong call of the command line: the sentence says what was wrong and how to call it. */
export class UsageError extends Error {
  override readonly name = "UsageError";
}

export const ANALYSE_OPTIONS = {
  site: { type: "string" },
  json: { type: "boolean" },
  each: { type: "boolean" },
  limits: { type: "string" },
  record: { type: "string" },
  events: { type: "string" },
  predict: { type: "boolean" },
  answer: { type: "string", multiple: true },
  column: { type: "string", multiple: true },
  units: { type: "string" },
  out: { type: "string" },
  help: { type: "boolean", short: "h" },
} as const;

export type AnalyseOptions = {
  readonly files: readonly string[];
  readonly site: string | null;
  /** File of company limits. */
  readonly limits: string | null;
  readonly json: boolean;
  readonly each: boolean;
  readonly record: string | null;
  /** Where to write all events as CSV. */
  readonly events: string | null;
  /** Run the fitted model for each step of the advice. */
  readonly predict: boolean;
  readonly out: string | null;
  readonly choices: ImportChoices;
  /** Null: units as in the file. */
  readonly units: UnitChoice | null;
  readonly help: boolean;
};

/** @throws UsageError */
export function readAnalyseOptions(args: readonly string[]): AnalyseOptions {
  const { values, positionals } = parsed(args);
  const help = values.help === true;
  if (!help && positionals.length === 0) throw new UsageError(USAGE.noFile);
  for (const single of ["record", "events"] as const)
    if (values.each && values[single] !== undefined) throw new UsageError(USAGE.notWithEach(single));
  return {
    files: positionals,
    site: values.site ?? null,
    limits: values.limits ?? null,
    json: values.json === true || values.each === true,
    each: values.each === true,
    record: values.record ?? null,
    events: values.events ?? null,
    predict: values.predict === true,
    out: values.out ?? null,
    choices: { answers: readAnswers(values.answer ?? []), columns: (values.column ?? []).map(readColumn), zone: null },
    units: readUnits(values.units),
    help,
  };
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], options: ANALYSE_OPTIONS, allowPositionals: true });
  } catch (error) {
    throw new UsageError(error instanceof Error ? error.message : String(error));
  }
}

/** @throws UsageError */
export function readUnits(text: string | undefined): UnitChoice | null {
  if (text === undefined) return null;
  if (text === "us") return US_UNITS;
  if (text === "metric") return METRIC_UNITS;
  throw new UsageError(USAGE.units(text));
}

function readAnswers(texts: readonly string[]): Readonly<Record<string, string>> {
  return Object.fromEntries(
    texts.map((text) => {
      // A channel's heading may hold "=", the answer after it seldom does.
      const at = text.lastIndexOf("=");
      if (at < 1) throw new UsageError(USAGE.answer(text));
      return [text.slice(0, at), text.slice(at + 1)];
    }),
  );
}

function readColumn(text: string): ImportChoices["columns"][number] {
  const at = text.lastIndexOf("=");
  const [role, unit] = at < 1 ? ["", ""] : splitOnce(text.slice(at + 1), ":");
  if (!isRole(role)) throw new UsageError(USAGE.column(text, CHANNEL_ROLES));
  return { heading: text.slice(0, at), role, unit: unit === "" ? null : unit };
}

const isRole = (text: string): text is ChannelRole => CHANNEL_ROLES.some((role) => role === text);

function splitOnce(text: string, mark: string): [string, string] {
  const at = text.indexOf(mark);
  return at < 0 ? [text, ""] : [text.slice(0, at), text.slice(at + 1)];
}
