import { describe, expect, test } from "vitest";
import { refusedDocument } from "../../../../analysis/document/findings-document";
import { eachOnce, type RoundEntry, readRoundFile } from "../../../../src/views/round/round-entry";
import { roundCsv } from "../../../../src/views/round/round-export";
import { arrange, daysSince, roundRows, sayAcceptance, sayAttention, sayChange } from "../../../../src/views/round/round-rows";
import { roundSummary } from "../../../../src/views/round/round-summary";
import { visibleRows } from "../../../../src/views/round/visible-rows";

const EMPTY = { ...refusedDocument({ kind: "none", message: "", file: null, row: null }), error: null };

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

describe("files of a round", () => {
  test("a findings document, a result of a bulk run and its lines all open", () => {
    const document = documentOf({});
    expect(readRoundFile("a.json", JSON.stringify(document)).entries).toHaveLength(1);
    expect(readRoundFile("b.json", JSON.stringify({ stamp: {}, document })).entries).toHaveLength(1);
    expect(readRoundFile("c.jsonl", `${JSON.stringify(document)}\n${JSON.stringify(document)}\n`).entries).toHaveLength(2);
  });
  test("a damaged line costs only itself and is counted", () => {
    expect(readRoundFile("c.jsonl", `${JSON.stringify(documentOf({}))}\n{"for`)).toMatchObject({
      entries: [{}],
      problem: "c.jsonl: 1 of 2 entries could not be read.",
    });
  });
  test("something else is refused with a reason", () =>
    expect(readRoundFile("x.json", "[1,2]").problem).toMatch(/neither a visit file nor/));
});

describe("what needs attention first", () => {
  const rows = roundRows(
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
    expect([d.visits, d.change, sayChange(d), sayAttention(d)]).toEqual([
      2,
      1,
      "worse than before (2 visits)",
      "short-cycles found. drift found.",
    ]);
  });
  test("search holds every word; the filter leaves out what keeps its limits", () => {
    expect(names(arrange(rows, "site", "short found", "all"))).toBe("AD");
    expect(names(arrange(rows, "site", "", "attention"))).toBe("ABD");
  });
  test("days since the record", () => expect(daysSince(rows[0], Date.parse("2026-03-08T12:00:00Z"))).toBe(3));
});

describe("the round tells how a site went on", () => {
  const month = (m: number) => `2026-0${m}-05T00:00:00.000Z`;
  test("starts that go one way over three visits are said with their numbers", () => {
    const [row] = roundRows(entries(...[4, 7, 9].map((starts, i) => ({ starts, to: month(i + 1) }))));
    expect(row.trend.starts).toEqual([4, 7, 9]);
    expect(sayChange(row)).toBe("as before (3 visits); most starts in an hour rising over 3 visits: 4, 7, 9");
    const [upAndDown] = roundRows(entries(...[4, 9, 7].map((starts, i) => ({ starts, to: month(i + 1) }))));
    expect(sayChange(upAndDown)).toBe("as before (3 visits)");
  });
  test("a check that is not met needs attention by its name, also where no finding stands for it", () => {
    const line = (name: string, state: string) => ({ id: name, name, state, limit: null, value: "" });
    const document = { ...documentOf({}), acceptance: [line("Worst dip", "not-met"), line("Starts", "met"), line("Leak", "cannot-tell")] };
    const [row] = roundRows([...readRoundFile("a.json", JSON.stringify(document)).entries]);
    expect(row.weight).toBe(1);
    expect(sayAttention(row)).toBe("Not accepted: Worst dip.");
    expect(sayAcceptance(row)).toBe("1 of 3 checks met, 1 cannot tell");
    expect(arrange([row], "site", "dip", "not-accepted")).toHaveLength(1);
  });
  test("the same record out of a bulk run's lines and its own file is one visit", () => {
    const document = documentOf({});
    const { entries: once, twice } = eachOnce([
      ...readRoundFile("logs/a.json", JSON.stringify({ stamp: {}, document })).entries,
      ...readRoundFile("findings.jsonl", `${JSON.stringify(document)}\n`).entries,
    ]);
    expect([once.length, twice]).toEqual([1, 1]);
  });
  test("the one-page summary counts all and names the gravest first, with nothing a file name could break", () => {
    const rows = roundRows(
      entries({ site: "<b>Mill</b>", broken: ["drift"] }, { site: "Well", broken: ["over-marked-pressure"] }, { site: "Brook" }),
    );
    const html = roundSummary(rows, Date.parse("2026-03-08T12:00:00Z"), "A4", null);
    expect(html).toContain("&lt;b&gt;Mill&lt;/b&gt;");
    expect(html.indexOf("Well")).toBeLessThan(html.indexOf("Mill"));
    expect(html).not.toContain("Brook");
    expect(html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ")).toContain(
      "Sites 3 Visits 3 Sites that keep their limits 1 Sites that break a limit 2",
    );
  });
});

test("5,000 visits are arranged, and only the rows in sight are drawn", () => {
  const many = roundRows(
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
  const csv = roundCsv(roundRows(entries({ site: '=HYPERLINK("x")' })), Date.parse("2026-03-08T12:00:00Z"));
  expect(csv.split("\r\n")[1]).toMatch(/^"'=HYPERLINK\(""x""\)",2026-03-05/);
});
