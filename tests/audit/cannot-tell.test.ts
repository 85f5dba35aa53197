import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { analyse } from "../../analysis/analyse";
import { collectCannotTell } from "../../analysis/document/story-part";
import { importLog, NO_CHOICES } from "../../analysis/import/import-log";
import type { CannotTellId } from "../../shared/findings/cannot-tell";
import { FINDING_KINDS, type FindingKind, type FindingOf, findingOf, type Outcome } from "../../shared/findings/finding";
import { NO_SITE_FACTS, readSiteFacts } from "../../shared/site/read-site-facts";
import type { SiteFacts } from "../../shared/site/site-facts";
import { US_UNITS } from "../../shared/units/unit-choice";
import { sayCannotTell } from "../../shared/wording/cannot-tell";
import { logFile } from "../builders/log-file";

/**
 * One log in which everything can be told, and the same log with evidence taken away: what it then no longer shows must be said to be open, with the
 * reason, and never be clear, nought or a usual value.
 */
const VISIT = join(import.meta.dirname, "../../sample-data/visits/hillside-before");
const [, ...ALL] = readFileSync(`${VISIT}.csv`, "utf8").trimEnd().split("\n");
/** Time, pressure (psi), flow (gpm), speed (%), a row every two seconds; twelve hours from noon on. */
const ROWS = ALL.slice(21600, 43200).map((row) => row.split(","));
const SITE = readSiteFacts({ ...JSON.parse(readFileSync(`${VISIT}.site.json`, "utf8")), tankRatedPressure: "100 psi", pipeInsideDiameter: "40 mm" }, "site.json"); // biome-ignore format: facts
const HEADINGS = ["Time", "Pressure (psi)", "Flow (gpm)", "Speed (%)"];

type Taken = { readonly rows?: readonly (readonly string[])[]; readonly columns?: readonly number[]; readonly site?: SiteFacts };
async function outcomesOf({ rows = ROWS, columns = [0, 1, 2, 3], site = SITE }: Taken) {
  const lines = [HEADINGS, ...rows].map((row) => columns.map((c) => row[c]).join(","));
  const { record } = await importLog([logFile(`${lines.join("\n")}\n`)], { ...NO_CHOICES, zone: site.zone });
  const analysis = analyse(record, site);
  return { outcomes: analysis.outcomes, said: collectCannotTell(analysis.outcomes, analysis.segments) };
}
const seldom = (step: number) => ROWS.filter((_, i) => i % step === 0);
const stepped = (psi: number) => ROWS.map(([time, p, ...rest]) => [time, (Math.round(Number(p) / psi) * psi).toFixed(2), ...rest]);

/** What is taken away, which questions stay open then and why. From what each question needs: practice of the trade and the sampling theorem. */
const LACKS: readonly (readonly [what: string, taken: Taken, open: Partial<Record<FindingKind, readonly CannotTellId[]>>])[] = [
  [
    "no pressure",
    { columns: [0, 2, 3] },
    {
      "over-marked-pressure": ["no-pressure-channel"],
      oscillation: ["no-pressure-channel"],
      drift: ["no-pressure-channel"],
      tracking: ["no-pressure-channel"],
      "tank-charge": ["no-pressure-channel"],
      "leak-down": ["no-pressure-channel"],
      sensor: ["no-pressure-channel"],
      "pump-performance": ["no-pressure-channel"],
    },
  ],
  ["no flow", { columns: [0, 1, 3] }, { "tank-charge": ["no-flow-channel"], demand: ["no-flow-channel"] }],
  ["a speed alone", { columns: [0, 3] }, { "tank-charge": ["no-pressure-channel", "no-flow-channel"], demand: ["no-flow-channel"], drift: ["no-pressure-channel"], "leak-down": ["no-pressure-channel"], sensor: ["no-pressure-channel"] }], // biome-ignore format: one line
  ["a reading every five minutes", { rows: seldom(150) }, { "short-cycles": ["sampling-too-slow"], oscillation: ["sampling-too-slow"] }],
  ["a reading every two minutes, of pressure alone", { rows: seldom(60), columns: [0, 1] }, { "short-cycles": ["sampling-too-slow", "no-pump-state"], oscillation: ["sampling-too-slow"], demand: ["no-flow-channel"], "tank-charge": ["no-flow-channel"] }], // biome-ignore format: one line
  ["forty seconds of it", { rows: ROWS.slice(0, 20) }, { oscillation: ["record-too-short", "nothing-to-see", "no-pump-state"], drift: ["nothing-to-see", "record-too-short", "no-pump-state"], "leak-down": ["nothing-to-see", "no-pump-state", "no-flow-channel", "record-too-short"], "tank-charge": ["nothing-to-see", "record-too-short", "no-pump-state", "no-flow-channel"] }], // biome-ignore format: one line
  ["pressure in steps of 8 psi", { rows: stepped(8) }, { oscillation: ["quantised-too-coarse"] }],
  ["half a minute in every minute and a half", { rows: ROWS.filter((_, i) => i % 45 < 15) }, { oscillation: ["gaps-too-many", "nothing-to-see", "record-too-short"] }], // biome-ignore format: one line
  ["no facts of the site", { site: NO_SITE_FACTS }, { "over-marked-pressure": [] }],
];
const open = LACKS.flatMap(([what, taken, kinds]) =>
  Object.entries(kinds).map(([kind, ids]) => [kind as FindingKind, what, taken, ids] as const),
);
const seen = new Map(await Promise.all(LACKS.map(async ([what, taken]) => [what, await outcomesOf(taken)] as const)));
const whole = await outcomesOf({});
const outcomeFor = (outcomes: readonly Outcome[], kind: FindingKind) => outcomes.find((o) => o.kind === kind)!;

describe("the log as it is", () => {
  test.each(FINDING_KINDS)("tells of %s", (kind) => {
    expect(["found", "clear"]).toContain(outcomeFor(whole.outcomes, kind).state);
  });
});

describe("with less of it", () => {
  test.each(open)("%s stays open: %s", (kind, what, _taken, ids) => {
    const outcome = outcomeFor(seen.get(what)!.outcomes, kind);
    expect(outcome.state).toBe("cannot-tell");
    if (outcome.state !== "cannot-tell" || ids.length === 0) return;
    expect(outcome.because.filter(({ id }) => ids.includes(id)).length).toBeGreaterThan(0);
  });
  test.each(LACKS.map(([what]) => what))("%s: each open question is told in a sentence that says what is missing", (what) => {
    const { outcomes, said } = seen.get(what)!;
    for (const reason of outcomes.flatMap((o) => (o.state === "cannot-tell" ? o.because : []))) {
      expect(said.some(({ id, about }) => id === reason.id && about === reason.about)).toBe(true);
      expect(sayCannotTell(reason, US_UNITS)).toMatch(/^\S.{20,}[.]$/su);
    }
  });
});

/** Numbers inside a finding that its evidence carries: without it each is null, not nought. */
const INSIDE: readonly (readonly [kind: FindingKind, what: string, fields: readonly string[]])[] = [
  ["sensor", "no flow", ["noiseGrowsWithFlow", "noiseGrowth", "lag", "resistanceBetween", "equivalentDistance"]],
  ["sensor", "no facts of the site", ["scaleRatio", "equivalentDistance"]],
  ["tracking", "no flow", ["droop"]],
  ["tracking", "forty seconds of it", ["droop"]],
  ["pump-performance", "no flow", ["shutoffPressure", "peakFlow"]],
  ["pump-performance", "no facts of the site", ["expectedShutoff"]],
  ["pump-performance", "forty seconds of it", ["peakFlow"]],
  ["cycling", "no pressure", ["cutIn", "cutOut"]],
  ["cycling", "no flow", ["startsByDraw"]],
  ["cycling", "a speed alone", ["cutIn", "cutOut", "startsByDraw"]],
  ["cycling", "no facts of the site", ["expectedShortestCycle", "allowedStartsPerHour", "allowedStartsFrom"]],
  ["cycling", "forty seconds of it", ["medianRun", "medianRest", "cutIn", "cutOut"]],
  ["leak-down", "no flow", ["minimumNightFlow"]],
  ["tank-charge", "no facts of the site", ["expectedGasConstant"]],
];
describe("inside what is still found", () => {
  test.each(INSIDE.flatMap(([kind, what, fields]) => fields.map((field) => [`${kind}.${field}`, what, kind, field] as const)))(
    "%s is not known: %s",
    (_name, what, kind, field) => {
      const finding: FindingOf<FindingKind> | null = findingOf(seen.get(what)!.outcomes, kind);
      if (finding !== null) expect(finding[field as keyof typeof finding]).toBeNull();
      else expect(["cannot-tell", "clear"]).toContain(outcomeFor(seen.get(what)!.outcomes, kind).state);
    },
  );
});
