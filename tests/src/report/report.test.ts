import { describe, expect, test } from "vitest";
import { comparedVisits } from "../../../analysis/comparison/before-and-after";
import { EMPTY_CHECKLIST } from "../../../shared/findings/checklist";
import type { Verdict } from "../../../shared/findings/comparison";
import { writeReport } from "../../../src/report/report";
import { REPORT_SECTIONS, type ReportInput, type ReportSectionId } from "../../../src/report/report-input";
import { SECTIONS } from "../../../src/report/sections";
import { steadyVisit } from "../../builders/measured-visits";
import { exampleDocument, exampleReport } from "../../builders/report-input";

const profile = {
  count: 3,
  fromS: 0,
  stepS: 21600,
  low: [300000, 310000, 305000, null],
  middle: [350000, 360000, 355000, null],
  high: [400000, 410000, 405000, null],
};
const named = (name: string, startsPerHour: number) => ({
  name,
  measures: { ...steadyVisit({ hours: 72, startsPerHour }), days: profile, cycles: { ...profile, stepS: 20 } },
});
const compared = comparedVisits(named("spring.csv", 20), named("autumn.csv", 0.6));
const section = (id: ReportSectionId, input: ReportInput = exampleReport({ comparison: compared })): string =>
  SECTIONS.find((s) => s.id === id)?.write(input)?.html ?? "";
/** What is read aloud of a piece of HTML. */
const words = (html: string): string => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

describe("each section of the report says its part", () => {
  const SAYS: { readonly [K in ReportSectionId]: readonly string[] } = {
    customer: [
      "The water pressure surges",
      "Most likely the air in the pressure tank has run low",
      "fill it up",
      "What to expect",
      "Please note",
    ],
    trace: ["P1, psi", "set pressure 52.0", "marked on the tank 60.0", "09:00"],
    findings: ["Over the limit: Pressure oscillates", "Period 12 s.", "How computed: Periodogram.", "What would make it wrong"],
    acceptance: ["Most starts in any hour", "at most 10 (site facts)", "Not met"],
    "before-and-after": [
      "Before: spring.csv",
      "Starts per hour",
      "Met",
      "All days laid over one another",
      "All cycles laid over one another",
      "18:00",
    ],
    causes: ["Precharge too low: 70", "short runs", "steady", "To be surer: Read it."],
    "next-visit": [
      "Raise the precharge.",
      "Drain the water side first.",
      "52 psi less 18 psi",
      "Boyle's law",
      "If this turns out to be wrong",
    ],
    notes: ["Noted on site", "Raise the precharge. Not done. 34 psi before", "Key at the mill."],
    "cannot-show": ["Without flow no leak is seen."],
    "site-facts": ["Set pressure", "52 psi", "given", "3 psi", "assumed"],
    record: ["ab".repeat(32), "3600 rows accepted, 2 rejected", "Assumed: dmy", "Two blank rows"],
  };
  test.each(REPORT_SECTIONS)("%s", (id) => {
    const said = words(section(id)).replaceAll("&#39;", "'");
    for (const part of SAYS[id]) expect(said).toContain(part);
  });
  test.each(REPORT_SECTIONS)("%s has a heading, and no picture without words", (id) => {
    const html = section(id);
    expect(html).toMatch(/<h2>/);
    for (const picture of html.match(/<svg[^>]*>/g) ?? []) expect(picture).toMatch(/role="img" aria-label="[^"]{20,}"/);
  });
  test("a section with nothing to say is not there", () => {
    const bare = exampleReport({
      document: exampleDocument({ acceptance: [], causes: [], advice: [], cannotTell: [], findings: [], site: {} }),
      checklist: EMPTY_CHECKLIST,
    });
    for (const id of ["acceptance", "causes", "next-visit", "cannot-show", "findings", "site-facts", "before-and-after", "notes"] as const)
      expect(section(id, bare)).toBe("");
  });
});

describe("the customer's page", () => {
  test("tells what was ticked as done, and no longer proposes it", () => {
    const html = section(
      "customer",
      exampleReport({ checklist: { entries: [{ step: "raise-precharge", done: true, note: "" }], notes: "" } }),
    );
    expect(words(html)).toMatch(/What was done If the air charge has run low, fill it up\. What is proposed No work is proposed\./);
  });
  test("names no cause that is less likely than not", () => {
    const [cause] = exampleDocument().causes;
    const document = exampleDocument({ causes: [{ ...cause, confidence: 0.4 }] });
    expect(words(section("customer", exampleReport({ document })))).toContain("does not settle the reason");
  });
  describe("of a record that looks sound", () => {
    const [line] = exampleDocument().acceptance;
    const [step] = exampleDocument().advice;
    const [cause] = exampleDocument().causes;
    const sound = { causes: [{ ...cause, id: "healthy" }], findings: [], advice: [{ ...step, id: "nothing-to-change" }] };
    const said = (parts: Parameters<typeof exampleDocument>[0]) =>
      words(section("customer", exampleReport({ document: exampleDocument({ ...sound, ...parts }), checklist: EMPTY_CHECKLIST })));
    const dip = { ...line, id: "worst-dip", name: "Worst dip", state: "not-met" } as const;

    test("says that no work is needed where nothing is outside its limit", () => {
      expect(said({ acceptance: [{ ...dip, state: "met" }] })).toContain("What is proposed No work is needed.");
      expect(said({ acceptance: [{ ...dip, state: "met" }] })).toContain("Most likely nothing is wrong with the system.");
    });
    test("never says so, nor that nothing is wrong, beside a check that is not kept or a finding over its limit", () => {
      const [finding] = exampleDocument().findings;
      for (const parts of [
        { acceptance: [dip] },
        { acceptance: [], findings: [{ ...finding, kind: "tracking", overLimit: true }] },
        { acceptance: [dip], advice: [...exampleDocument().advice, ...sound.advice] },
      ] as const) {
        expect(said(parts)).not.toMatch(/no work is|nothing is wrong|nothing in the record breaks/i);
        expect(said(parts)).toContain("does not settle the reason");
      }
      expect(said({ acceptance: [dip] })).toContain("is looked into at the next visit");
    });
    test("nor beside a comparison that says it became worse, or is not yet shown to keep its limits", () => {
      const both = (overall: Verdict) =>
        words(
          section(
            "customer",
            exampleReport({
              document: exampleDocument({ ...sound, acceptance: [] }),
              checklist: EMPTY_CHECKLIST,
              comparison: { ...compared, comparison: { ...compared.comparison, overall } },
            }),
          ),
        );
      for (const overall of ["worse", "better-but-not-met"] as const)
        expect(both(overall)).not.toMatch(/no work is needed|nothing is wrong|does not keep every limit/i);
      expect(both("worse")).toContain("What is worse than before is looked into at the next visit.");
      expect(both("better-but-not-met")).toContain("A longer record would show whether it always keeps its limits.");
      expect(both("met")).toContain("No work is needed.");
    });
    test("nor beside other work that is proposed", () => {
      const both = said({ acceptance: [], advice: [...exampleDocument().advice, ...sound.advice] });
      expect(both).not.toContain("No work is");
    });
  });
  test("says in plain words whether it helped", () =>
    expect(words(section("customer"))).toContain("Did it help? Yes: what was compared keeps"));
});

describe("a report", () => {
  test("leaves out what it is told to, and nothing else", () => {
    for (const id of REPORT_SECTIONS) {
      const html = writeReport(exampleReport({ comparison: compared, leaveOut: [id] }));
      for (const other of REPORT_SECTIONS) {
        const heading = /<h2>[^<]*<\/h2>/.exec(section(other))?.[0] ?? "";
        expect(html.includes(heading)).toBe(other !== id);
      }
    }
  });
  test("needs no script and nothing from outside, and escapes what came from files", () => {
    const html = writeReport(exampleReport());
    expect(html).not.toMatch(/<script|https?:|url\(|<link|<iframe/);
    expect(html).toContain("mill &lt;lane&gt;.csv");
    expect(html).toContain("Brook &amp; Vale &lt;Service&gt;");
    expect(html).toContain("default-src &#39;none&#39;");
  });
  test.each(["A4", "Letter"] as const)("is laid out for %s", (paper) =>
    expect(writeReport(exampleReport({ paper }))).toContain(`size: ${paper === "A4" ? "A4" : "letter"}`),
  );
  test("takes a picture as a logo, and nothing else", () => {
    const logo = "data:image/png;base64,iVBORw0KGgo=";
    expect(writeReport(exampleReport({ letterhead: { lines: [], logo } }))).toContain(`<img src="${logo}"`);
    expect(() => writeReport(exampleReport({ letterhead: { lines: [], logo: "https://example.invalid/a.png" } }))).toThrow(RangeError);
  });
});
