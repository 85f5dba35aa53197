import { describe, expect, test } from "vitest";
import { refusedDocument } from "../../../../analysis/document/findings-document";
import { type RoundEntry, readRoundFile } from "../../../../src/views/round/round-entry";
import { roundCsv } from "../../../../src/views/round/round-export";
import { arrange, daysSince, roundRows, sayAttention, sayChange } from "../../../../src/views/round/round-rows";
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
    expect(names(arrange(rows, "attention", "", false))).toBe("BDAC"));
  test("a site shows its latest visit and how it changed", () => {
    const d = rows.find(({ site }) => site === "D")!;
    expect([d.visits, d.change, sayChange(d), sayAttention(d)]).toEqual([
      2,
      1,
      "worse than before (2 visits)",
      "short-cycles found. drift found",
    ]);
  });
  test("search holds every word; the filter leaves out what keeps its limits", () => {
    expect(names(arrange(rows, "site", "short found", false))).toBe("AD");
    expect(names(arrange(rows, "site", "", true))).toBe("ABD");
  });
  test("days since the record", () => expect(daysSince(rows[0], Date.parse("2026-03-08T12:00:00Z"))).toBe(3));
});

test("5,000 visits are arranged, and only the rows in sight are drawn", () => {
  const many = roundRows(
    entries(...Array.from({ length: 5000 }, (_, i) => ({ site: `Site ${i}`, broken: i % 7 ? [] : ["drift"], starts: i % 50 }))),
  );
  expect(arrange(many, "starts", "site", false)[0].starts).toBe(49);
  expect(arrange(many, "attention", "", true)).toHaveLength(715);
  const { from, to } = visibleRows(5000, 84, 84 * 2500, 840);
  expect(to - from).toBeLessThan(30);
  expect(from).toBeLessThanOrEqual(2500);
  expect(to).toBeGreaterThanOrEqual(2510);
});

test("a site's name never becomes a formula in the export", () => {
  const csv = roundCsv(roundRows(entries({ site: '=HYPERLINK("x")' })), Date.parse("2026-03-08T12:00:00Z"));
  expect(csv.split("\r\n")[1]).toMatch(/^"'=HYPERLINK\(""x""\)",2026-03-05/);
});
