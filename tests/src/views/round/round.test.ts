import { describe, expect, test } from "vitest";
import { refusedDocument } from "../../../../analysis/document/findings-document";
import { type CompanyLimits, withCompanyLimits } from "../../../../shared/site/company-limits";
import { NO_SITE_FACTS } from "../../../../shared/site/read-site-facts";
import { METRIC_UNITS, US_UNITS } from "../../../../shared/units/unit-choice";
import { linesOf } from "../../../../src/views/round/read-round-files";
import { eachOnce, type RoundEntry, readRoundFile, readRoundLines } from "../../../../src/views/round/round-entry";
import { roundCsv } from "../../../../src/views/round/round-export";
import { arrange, daysSince, roundRows, sayAcceptance, sayChange } from "../../../../src/views/round/round-rows";
import { roundSummary } from "../../../../src/views/round/round-summary";
import { visibleRows } from "../../../../src/views/round/visible-rows";

const EMPTY = { ...refusedDocument({ kind: "none", message: "", file: null, row: null }), error: null };

const rowsOf = (list: readonly RoundEntry[], limits: CompanyLimits = {}, units = US_UNITS) =>
  roundRows(list, withCompanyLimits(NO_SITE_FACTS, limits), units);

type Sketch = { readonly site?: string; readonly to?: string; readonly broken?: readonly string[]; readonly starts?: number };
const documentOf = ({ site = "Mill Lane", to = "2026-03-05T00:00:00.000Z", broken = [], starts = 4 }: Sketch) => ({
  ...EMPTY,
  site: { name: { value: site, unit: null, from: "given" } },
  record: { ...EMPTY.record, to, files: [{ name: "log.csv", bytes: 1, sha256: null }] },
  cycling: { ...EMPTY.cycling, starts, peakStartsPerHour: starts },
  findings: broken.map((kind) => ({
    kind,
    title: `${kind} found`,
    text: "",
    places: [],
    basis: "",
    method: "",
    wrongIf: "",
    sharpenedBy: null,
    overLimit: true,
  })),
});
const entries = (...sketches: readonly Sketch[]): RoundEntry[] =>
  sketches.flatMap((sketch, i) => [...readRoundFile(`${i}.json`, JSON.stringify(documentOf(sketch))).entries]);

const fromLines = (...lines: readonly string[]) => readRoundLines("c.jsonl", linesOf(new Blob([lines.join("\n")])));

describe("files of a round", () => {
  test("a findings document, a result of a bulk run and its lines all open", async () => {
    const document = documentOf({});
    expect(readRoundFile("a.json", JSON.stringify(document)).entries).toHaveLength(1);
    expect(readRoundFile("b.json", JSON.stringify({ stamp: {}, document })).entries).toHaveLength(1);
    expect((await fromLines(JSON.stringify(document), JSON.stringify(document), "")).entries).toHaveLength(2);
  });
  test("logs of the same name in two folders are two sites, and carry their small trace", async () => {
    const document = { ...documentOf({}), site: {} };
    const trace = { duration: 60, channels: [{ heading: "P", role: "pressure", quantity: "gaugePressure", low: [1, 2], high: [2, 3] }] };
    const lines = ["north/log.csv", "south/log.csv"].map((log) => JSON.stringify({ ...document, log, trace }));
    const { entries: read } = await fromLines(...lines);
    expect(rowsOf(read).map(({ site }) => site)).toEqual(["north/log.csv", "south/log.csv"]);
    expect(read.every(({ digest }) => digest.trace !== "")).toBe(true);
    expect(rowsOf(eachOnce(read).entries)).toHaveLength(2);
    const damaged = (await fromLines(JSON.stringify({ ...document, log: 3, trace: { duration: "x" } }))).entries;
    expect(damaged).toHaveLength(1);
  });
  test("a damaged line costs only itself and is counted", async () => {
    expect(await fromLines(JSON.stringify(documentOf({})), '{"for')).toMatchObject({
      entries: [{}],
      problem: "c.jsonl: 1 of 2 entries could not be read.",
    });
  });
  test("lines are whole however the file is cut into pieces", async () => {
    const text = Array.from({ length: 3000 }, (_, i) => `{"n":${i},"t":"${"\u00e4".repeat(2000)}"}`);
    const read: string[] = [];
    for await (const line of linesOf(new Blob([text.join("\n")]))) read.push(line);
    expect(read).toEqual(text);
  });
  test("something else is refused with a reason", () =>
    expect(readRoundFile("x.json", "[1,2]").problem).toMatch(/neither a visit file nor/));
});

describe("what needs attention first", () => {
  const rows = rowsOf(
    entries(
      { site: "A", broken: ["short-cycles"] },
      { site: "B", broken: ["over-marked-pressure"] },
      { site: "C" },
      { site: "D", broken: ["short-cycles", "drift"], to: "2026-03-05T00:00:00.000Z" },
      { site: "D", broken: ["drift"], to: "2026-02-05T00:00:00.000Z" },
    ),
  );
  const names = (list: typeof rows) => list.map(({ site }) => site).join("");
  test("marked pressure passed comes before everything, then the more limits broken", () =>
    expect(names(arrange(rows, "attention", "", "all"))).toBe("BDAC"));
  test("a site shows its latest visit and how it changed", () => {
    const d = rows.find(({ site }) => site === "D")!;
    expect([d.visits, d.change, sayChange(d), d.why]).toEqual([
      2,
      1,
      "worse than before (2 visits)",
      "The pump runs too briefly. Pressure drifts at steady flow.",
    ]);
  });
  test("search holds every word; the filter leaves out what keeps its limits", () => {
    expect(names(arrange(rows, "site", "runs briefly", "all"))).toBe("AD");
    expect(names(arrange(rows, "site", "", "attention"))).toBe("ABD");
  });
  test("days since the record", () => expect(daysSince(rows[0], Date.parse("2026-03-08T12:00:00Z"))).toBe(3));
});

const measured = (value: number, half = 0) => ({ value, low: value - half, high: value + half });
const PSI = 6894.757;
/** A visit whose sheet has four lines: 9 starts of 10 allowed, a dip of 1 bar, oscillation of 2 psi, and a share within a band of 3 psi. */
const sheetEntries = (limits: Record<string, unknown>): RoundEntry[] => {
  const line = (id: string, state: string, low: number | null, high: number | null, value: ReturnType<typeof measured> | null) => ({
    ...{ id, name: id, state, limit: "", value: "", wouldTell: null, limitLow: low, limitHigh: high, measured: value },
  });
  const acceptance = [
    line("worst-dip", "not-met", null, 12 * PSI, measured(100_000)),
    line("starts-per-hour", "met", null, 10, measured(9)),
    line("oscillation", "cannot-tell", null, 3 * PSI, measured(2 * PSI, 1.5 * PSI)),
    line("within-band", "cannot-tell", 0.95, null, null),
  ];
  const cycling = { ...EMPTY.cycling, allowedStartsPerHour: 10 };
  const document = { ...documentOf({}), acceptance, cycling, site: { limits }, tracking: { ...EMPTY.tracking, bandPa: 3 * PSI } };
  return [...readRoundFile("a.json", JSON.stringify(document)).entries];
};

describe("the round holds every visit against the company's limits of today", () => {
  test("a stricter limit makes a kept visit break it, a milder one lets it pass, without its log", () => {
    const strict = rowsOf(sheetEntries({}), { "limits.startsPerHour": "6", "limits.oscillationPeakToPeak": "0.25 psi" })[0];
    expect(strict.why).toContain("Most starts in any hour: 9 (limit: at most 6).");
    expect(strict.why).toContain("Height of the oscillation, crest to trough: 2.0\u202fpsi (0.5 to 3.5) (limit: at most 0.25\u202fpsi).");
    expect(strict.weight).toBe(3);
    expect(rowsOf(sheetEntries({}), { "limits.worstDip": "20 psi" })[0]).toMatchObject({ weight: 0, why: "No limit broken." });
  });
  test("a limit that the site states itself comes first", () => {
    const own = { startsPerHour: { value: 10, unit: "", from: "given" }, worstDip: { value: 12 * PSI, unit: "psi", from: "given" } };
    const [row] = rowsOf(sheetEntries(own), { "limits.startsPerHour": "6", "limits.worstDip": "20 psi" });
    expect(row.why).toBe("Worst dip when a draw begins: 14.5\u202fpsi (limit: at most 12\u202fpsi).");
  });
  test("an interval over the limit is outside but not certain", () => {
    const [row] = rowsOf(sheetEntries({}), { "limits.worstDip": "20 psi", "limits.oscillationPeakToPeak": "1.5 psi" });
    expect(row.why).toContain("not certain");
    expect(row.judged.checks.find(({ id }) => id === "oscillation")?.state).toBe("cannot-tell");
  });
  test("under another limit of short runs the shortest run tells whether there are any, and no number is made up", () => {
    const run = (from: number, to: number, complete = true) => ({ from, to, complete });
    const short = { limitS: 60, count: 0, runs: [] };
    const acceptance = [{ id: "short-cycles", state: "met", limitLow: null, limitHigh: 0, measured: measured(0) }];
    const cycling = { ...EMPTY.cycling, shortCycle: short };
    const running = { basis: "speed", runs: [run(0, 20, false), run(50, 140), run(200, 275)] };
    const entries = readRoundFile("a.json", JSON.stringify({ ...documentOf({}), acceptance, cycling, running })).entries;
    expect(rowsOf(entries)[0].weight).toBe(0);
    expect(rowsOf(entries, { shortCycleLimit: "75 s" })[0].weight).toBe(0);
    expect(rowsOf(entries, { shortCycleLimit: "80 s" })[0]).toMatchObject({
      weight: 1,
      why: "Runs shorter than the limit (none allowed).",
    });
  });
  test("the share within another band is not told", () => {
    const share = { id: "within-band", state: "met", limitLow: 0.95, limitHigh: null, measured: measured(0.97) };
    const document = { ...documentOf({}), acceptance: [share], tracking: { ...EMPTY.tracking, bandPa: 3 * PSI } };
    const entries = readRoundFile("a.json", JSON.stringify(document)).entries;
    const stateUnder = (limits: CompanyLimits) => rowsOf(entries, limits)[0].judged.checks[0].state;
    expect([stateUnder({}), stateUnder({ "limits.shareWithinBand": "98 %" }), stateUnder({ "limits.band": "1 psi" })]).toEqual([
      "met",
      "not-met",
      "cannot-tell",
    ]);
  });
});

describe("the round tells how a site went on", () => {
  const month = (m: number) => `2026-0${m}-05T00:00:00.000Z`;
  test("starts that go one way over three visits are said with their numbers", () => {
    const [row] = rowsOf(entries(...[4, 7, 9].map((starts, i) => ({ starts, to: month(i + 1) }))));
    expect(row.trend.starts).toEqual([4, 7, 9]);
    expect(sayChange(row)).toBe("as before (3 visits); most starts in an hour rising over 3 visits: 4, 7, 9");
    const [upAndDown] = rowsOf(entries(...[4, 9, 7].map((starts, i) => ({ starts, to: month(i + 1) }))));
    expect(sayChange(upAndDown)).toBe("as before (3 visits)");
  });
  test("a check that is not met needs attention by its name, also where no finding stands for it", () => {
    const [row] = rowsOf(sheetEntries({}));
    expect(row.weight).toBe(1);
    expect(row.why).toBe("Worst dip when a draw begins: 14.5\u202fpsi (limit: at most 12\u202fpsi).");
    expect(sayAcceptance(row)).toBe("1 of 4 checks met, 2 cannot tell");
    expect(arrange([row], "site", "dip", "not-accepted")).toHaveLength(1);
    expect(rowsOf(sheetEntries({}), {}, METRIC_UNITS)[0].why).toContain("1.00\u202fbar");
  });
  test("the same record out of a bulk run's lines and its own file is one visit", async () => {
    const document = documentOf({});
    const { entries: once, twice } = eachOnce([
      ...readRoundFile("logs/a.json", JSON.stringify({ stamp: {}, document })).entries,
      ...(await fromLines(JSON.stringify(document))).entries,
    ]);
    expect([once.length, twice]).toEqual([1, 1]);
  });
  test("the one-page summary counts all and names the gravest first, with nothing a file name could break", () => {
    const rows = rowsOf(
      entries({ site: "<b>Mill</b>", broken: ["drift"] }, { site: "Well", broken: ["over-marked-pressure"] }, { site: "Brook" }),
    );
    const html = roundSummary(rows, Date.parse("2026-03-08T12:00:00Z"), "A4", null);
    expect(html).toContain("&lt;b&gt;Mill&lt;/b&gt;");
    expect(html.indexOf("Well")).toBeLessThan(html.indexOf("Mill"));
    expect(html).not.toContain("Brook");
    const said = html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");
    for (const fact of ["Sites 3 ", "Visits 3 ", "Sites that keep their limits 1 ", "Sites that break a limit 2 ", "marked pressure 1 "])
      expect(said).toContain(fact);
  });
});

test("5,000 visits are arranged, and only the rows in sight are drawn", () => {
  const many = rowsOf(
    entries(...Array.from({ length: 5000 }, (_, i) => ({ site: `Site ${i}`, broken: i % 7 ? [] : ["drift"], starts: i % 50 }))),
  );
  expect(arrange(many, "starts", "site", "all")[0].latest.digest.starts).toBe(49);
  expect(arrange(many, "attention", "", "attention")).toHaveLength(715);
  const { from, to } = visibleRows(5000, 84, 84 * 2500, 840);
  expect(to - from).toBeLessThan(30);
  expect(from).toBeLessThanOrEqual(2500);
  expect(to).toBeGreaterThanOrEqual(2510);
});

test("a site's name never becomes a formula in the export", () => {
  const csv = roundCsv(rowsOf(entries({ site: '=HYPERLINK("x")' })), Date.parse("2026-03-08T12:00:00Z"));
  expect(csv.split("\r\n")[1]).toMatch(/^"'=HYPERLINK\(""x""\)",2026-03-05/);
});
