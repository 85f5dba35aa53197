import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, expect, test, vi } from "vitest";
import { HOLDING } from "../../analysis/acceptance/holding";
import { RULES } from "../../analysis/advice/rules";
import { analyse } from "../../analysis/analyse";
import { DETECTORS } from "../../analysis/detectors";
import { LOOKS } from "../../analysis/diagnosis/observations";
import { writeFindings } from "../../analysis/document/findings-document";
import { FAULT_FINDERS } from "../../analysis/faults";
import { importLog } from "../../analysis/import/import-log";
import { SEGMENT_FINDERS } from "../../analysis/segments";
import { FINDING_KINDS } from "../../shared/findings/finding";
import { OBSERVATION_IDS } from "../../shared/findings/observation";
import { unitsAsInFile } from "../../shared/record/units-as-in-file";
import { readSiteFacts } from "../../shared/site/read-site-facts";
import { printSummary } from "../../src/command-line/print-summary";
import { reportOf } from "../../src/report/report-of-record";
import { logFile } from "../builders/log-file";
import { bareOrder } from "../builders/report-order";

const visits = join(import.meta.dirname, "../../sample-data/visits");
// Two hours of the sample visit: enough for findings, causes and advice.
const head = readFileSync(join(visits, "hillside-before.csv"), "utf8").split("\n").slice(0, 7200).join("\n");
const site = readSiteFacts(JSON.parse(readFileSync(join(visits, "hillside-before.site.json"), "utf8")), "site.json");
const { record } = await importLog([logFile(head)]);
const units = unitsAsInFile(record);
const sound = writeFindings(record, analyse(record, site), units);
const document = () => writeFindings(record, analyse(record, site), units);
const break_ = () => {
  throw new TypeError("cannot read <b>length</b> of nothing");
};

const textsOf = (d: typeof sound) => d.findings.map(({ kind, text }) => ({ kind, text }));
/** A log that honestly does not show the segment. */
const UNSHOWN: { readonly [K in keyof typeof SEGMENT_FINDERS]: unknown } = {
  drive: null,
  "meter-place": { place: null, from: null, certainty: 0 },
  pump: { id: "outside-model", about: "starts", detail: {} },
  draw: { id: "outside-model", about: "leak", detail: {} },
  steady: { id: "outside-model", about: "drift", detail: {} },
  tank: { id: "outside-model", about: "tank", detail: {} },
};

afterEach(() => vi.restoreAllMocks());

test("a sound program has nothing to confess, and finds something to lose", () => {
  expect(sound.failures).toEqual([]);
  expect(sound.findings.length).toBeGreaterThan(3);
  expect(sound.causes.length).toBeGreaterThan(10);
  expect(sound.advice.length).toBeGreaterThan(0);
});

test.each(FINDING_KINDS)("where the detector of %s fails, the others find what they found, and it is said", (kind) => {
  vi.spyOn(DETECTORS[FINDING_KINDS.indexOf(kind)], "detect").mockImplementation(break_);
  const broken = document();
  expect(broken.failures.filter(({ part }) => part === "detector").map(({ id }) => id)).toEqual([kind]);
  const others = (d: typeof sound) => d.findings.filter((f) => f.kind !== kind).map(({ kind: k, text }) => ({ k, text }));
  expect(others(broken)).toEqual(others(sound));
  expect(broken.causes.reduce((sum, { confidence }) => sum + confidence, 0)).toBeCloseTo(1, 8);
});

test.each(Object.keys(SEGMENT_FINDERS) as (keyof typeof SEGMENT_FINDERS)[])(
  "where the segment %s fails, the rest is what it would be where the log does not show it",
  (id) => {
    vi.spyOn(SEGMENT_FINDERS, id).mockImplementation(break_);
    const broken = document();
    expect(broken.failures).toMatchObject([{ part: "segment", id }]);
    vi.restoreAllMocks();
    // A lost drive loses the pump: a lesser witness is not asked in its place.
    vi.spyOn(SEGMENT_FINDERS, id === "drive" ? "pump" : id).mockImplementation((() => UNSHOWN[id === "drive" ? "pump" : id]) as never);
    const unshown = document();
    expect(textsOf(broken)).toEqual(textsOf(unshown));
    expect(broken.causes).toEqual(unshown.causes);
    expect(broken.advice).toEqual(unshown.advice);
    // It is the program that failed, and not the log that is blamed.
    const open = broken.cannotTell.map((c) => c.id);
    if (id !== "meter-place") expect(open).toContain("program-failed");
    expect(open).not.toContain("no-pump-state");
    expect(open).not.toContain("no-flow-channel");
  },
);

test.each(Object.keys(FAULT_FINDERS) as (keyof typeof FAULT_FINDERS)[])("where no %s can be looked for, the rest is", (kind) => {
  vi.spyOn(FAULT_FINDERS, kind).mockImplementation(break_);
  const broken = document();
  expect(broken.failures).toMatchObject([{ part: "fault", id: kind }]);
  // This log has none of the kind, so that nothing else may change.
  expect(sound.record.faults.filter((fault) => fault.kind === kind)).toEqual([]);
  expect(textsOf(broken)).toEqual(textsOf(sound));
});

test.each(OBSERVATION_IDS)("where %s cannot be weighed, every cause still is", (id) => {
  vi.spyOn(LOOKS as unknown as Record<string, () => null>, id).mockImplementation(break_);
  const broken = document();
  expect(broken.failures).toHaveLength(1);
  expect(broken.failures[0]).toMatchObject({ part: "observation", id });
  expect(broken.causes).toHaveLength(sound.causes.length);
  expect(broken.findings).toEqual(sound.findings);
});

test.each(RULES.map((rule) => [rule.id, rule] as const))("where the rule %s fails, the other steps stand", (id, rule) => {
  vi.spyOn(rule, "propose").mockImplementation(break_);
  const broken = document();
  expect(broken.advice.map((step) => step.id)).toEqual(sound.advice.map((step) => step.id).filter((step) => step !== id));
  // A rule that is not asked of this record cannot fail on it.
  expect(broken.failures.map((failure) => failure.id).filter((failed) => failed !== id)).toEqual([]);
  if (sound.advice.some((step) => step.id === id)) expect(broken.failures).toHaveLength(1);
});

test("a line of the acceptance sheet that fails leaves the other lines", () => {
  const first = HOLDING[0];
  const lines = HOLDING as unknown as unknown[];
  lines[0] = break_;
  try {
    const broken = document();
    expect(broken.acceptance.map(({ id }) => id)).toEqual(sound.acceptance.map(({ id }) => id).filter((id) => id !== "marked-pressure"));
    expect(broken.failures).toMatchObject([{ part: "acceptance" }]);
  } finally {
    lines[0] = first;
  }
});

test("summary and report say where the program failed, and what it said becomes no markup", () => {
  vi.spyOn(DETECTORS[FINDING_KINDS.indexOf("drift")], "detect").mockImplementation(break_);
  const broken = document();
  const sentence = "this program failed there (cannot read <b>length</b> of nothing)";
  expect(broken.failures[0].text).toContain(sentence);
  expect(printSummary(broken).replace(/\s+/g, " ")).toContain(sentence);
  const report = reportOf(record, broken, bareOrder(units));
  expect(report).toContain("Where this program failed");
  expect(report).toContain("cannot read &lt;b&gt;length&lt;/b&gt; of nothing");
  expect(report).not.toContain("<b>length");
  expect(printSummary(sound)).not.toContain("failed");
});
