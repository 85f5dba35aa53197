import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { analyse } from "../../../../analysis/analyse";
import { importLog, NO_CHOICES } from "../../../../analysis/import/import-log";
import { atOneGo } from "../../../../analysis/numerics/at-one-go";
import { readSiteFacts } from "../../../../shared/site/read-site-facts";
import { longStretch, stretchesOf } from "../../../../src/views/what-if/stretches";
import { runModelInSteps } from "../../../../src/worker/modelling";
import { logFile } from "../../../builders/log-file";
import { TOP } from "../../../house/source-files";

const VISIT = join(TOP, "sample-data", "visits", "hillside-before");
const site = readSiteFacts(JSON.parse(readFileSync(`${VISIT}.site.json`, "utf8")), "site.json");
const { record } = await importLog([logFile(readFileSync(`${VISIT}.csv`), "log.csv")], NO_CHOICES);
const analysis = analyse(record, site);
const [busiest] = stretchesOf({ analysis, outline: record });
const whole = longStretch(record.duration, busiest.span);

describe("what if, on the sample visit", () => {
  const run = atOneGo(
    runModelInSteps(record, analysis, {
      changes: [
        { id: "precharge", to: 43 * 6894.757 },
        { id: "sleep-delay", to: 60 },
      ],
      span: whole.span,
      search: false,
    }),
  );
  if (run.state !== "run") throw new Error(`the model did not run: ${run.state}`);

  test("charge put back and a longer sleep delay halve the starts and end the short cycles, as the visit after the repair shows (sample-data/README.md)", () => {
    const { now, after } = run.answer;
    expect(after.measures["starts-per-hour"].value).toBeLessThan(now.measures["starts-per-hour"].value / 2);
    expect(after.measures["short-cycles-per-hour"].value).toBeLessThan(now.measures["short-cycles-per-hour"].value / 10);
    expect(after.measures["stored-water"].value).toBeGreaterThan(now.measures["stored-water"].value);
  });
  test("the model as it is starts about as often as the log shows: 8.7 per hour", () => {
    expect(run.answer.now.measures["starts-per-hour"].value).toBeGreaterThan(6);
    expect(run.answer.now.measures["starts-per-hour"].value).toBeLessThan(11);
  });
  test("the stretch lies within the record", () => {
    expect(busiest.span.to - busiest.span.from).toBe(3600);
    expect(busiest.span.to).toBeLessThanOrEqual(record.duration);
  });
  test("without a pressure there is no model", () => {
    const bare = { ...record, channels: record.channels.filter(({ role }) => role !== "pressure") };
    expect(atOneGo(runModelInSteps(bare, analyse(bare, site), { changes: [], span: busiest.span, search: false })).state).toBe("no-model");
  });
});
