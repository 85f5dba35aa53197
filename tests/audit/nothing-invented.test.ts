import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { acceptanceSheet } from "../../analysis/acceptance/acceptance-sheet";
import { analyse } from "../../analysis/analyse";
import { writeFindings } from "../../analysis/document/findings-document";
import { collectCannotTell, inOrderOfWeight } from "../../analysis/document/story-part";
import { importLog } from "../../analysis/import/import-log";
import { type Finding, findingOf } from "../../shared/findings/finding";
import { inGauge } from "../../shared/record/in-gauge";
import { readSiteFacts } from "../../shared/site/read-site-facts";
import { METRIC_UNITS, US_UNITS } from "../../shared/units/unit-choice";
import { amountWords } from "../../shared/wording/amount";
import { sayCannotTell } from "../../shared/wording/cannot-tell";
import { printSummary } from "../../src/command-line/print-summary";
import { reportOf } from "../../src/report/report-of-record";
import { logFile } from "../builders/log-file";
import { bareOrder } from "../builders/report-order";
import { numbersIn, numbersOf, tracesTo } from "./numbers-in-text";

const FOLDER = join(import.meta.dirname, "../../sample-data/visits");
const PSI = 6894.757; // NIST SP 811 (2008), Appendix B
const SAMPLES = ["hillside-before", "hillside-after", "orchard-healthy"];
const UNITS = [
  ["US", US_UNITS],
  ["metric", METRIC_UNITS],
] as const;

/** What a sentence works out of a finding's own numbers, done again here: counts of places, lengths of stretches, shares, a day's loss. */
function workedOut(f: Finding): number[] {
  const lengths = (spans: readonly { readonly from: number; readonly to: number }[]) => spans.map(({ from, to }) => to - from);
  const sum = (all: readonly number[]) => all.reduce((a, b) => a + b, 0);
  switch (f.kind) {
    case "over-marked-pressure":
      return [f.places.length, f.highest - f.marked];
    case "short-cycles":
      return [f.runs.length];
    case "oscillation": {
      const total = sum(lengths(f.episodes));
      const by = (driver: string) => sum(lengths(f.episodes.filter((e) => e.drivenBy === driver))) / total;
      return [f.episodes.length, total, by("loop"), by("demand"), by("cycling"), by("unknown")];
    }
    case "drift":
      return [f.windows.length, f.windows.filter((w) => w.over).length, ...lengths(f.windows)];
    case "tank-charge":
      return f.gasConstant === null || f.expectedGasConstant === null ? [] : [f.gasConstant.value / f.expectedGasConstant];
    case "leak-down":
      return [f.flow.value * 86_400];
    case "sensor":
      return [f.stuck.length + f.frozen.length];
    case "pump-performance":
      return [f.lossOfPrime.length, f.overdraw.length];
    case "demand":
      return [(f.volumePerDay * f.observed) / 86_400];
    default:
      return [];
  }
}

async function readSample(name: string) {
  const site = readSiteFacts(JSON.parse(readFileSync(join(FOLDER, `${name}.site.json`), "utf8")), "site.json");
  const { record } = await importLog([logFile(Uint8Array.from(readFileSync(join(FOLDER, `${name}.csv`))), `${name}.csv`, 1 << 20)]);
  return { record, site, analysis: analyse(record, site) };
}
const samples = new Map(await Promise.all(SAMPLES.map(async (name) => [name, await readSample(name)] as const)));
const cases = SAMPLES.flatMap((name) => UNITS.map(([called, units]) => [name, called, units] as const));

/** The numbers of a text that trace to none of the sources and are no figure of the trade in the list. */
/** Figures that the program's fixed sentences name; each stands in the code with this origin. */
const FIGURES: readonly number[] = [
  95, // level of every interval, in per cent: the findings document's own rule
];
const untraced = (text: string, sources: Iterable<number>): string[] => {
  const all = [...sources];
  return numbersIn(text).flatMap((n) => (tracesTo(n, all) ? [] : [`"${n.text}" (${n.unit}) in: ${text}`]));
};

describe.each(cases)("%s in %s units", (name, _called, units) => {
  const { record, site, analysis } = samples.get(name)!;
  const document = writeFindings(record, analysis, units);
  const facts = numbersOf(site);

  test("every number of a finding's sentences is a number of that finding", () => {
    const findings = inOrderOfWeight(analysis.outcomes, site);
    const wrong = document.findings.flatMap(({ title, text }, i) => {
      const sources = new Set([...numbersOf(findings[i]), ...workedOut(findings[i])]);
      return [...untraced(title, sources), ...untraced(text, sources)];
    });
    expect(wrong).toEqual([]);
  });
  test("every number of a reason is a number of that reason", () => {
    const wrong = document.causes.flatMap((cause, i) =>
      (["for", "against"] as const).flatMap((side) =>
        cause[side].flatMap((sentence, k) => untraced(sentence, numbersOf(analysis.causes[i][side][k].numbers))),
      ),
    );
    expect(wrong).toEqual([]);
  });
  test("every amount of a step is its own range, and its calculation its own inputs and listed figures", () => {
    const wrong = document.advice.flatMap((step, i) => {
      const { amounts, expect: effect, because, trust } = analysis.advice[i];
      const own = numbersOf([amounts, trust]);
      const effects = effect === null ? [] : untraced(step.expect ?? "", numbersOf(effect.numbers));
      return [
        ...untraced(step.amount ?? "", own),
        ...step.calculation.flatMap((line, k) =>
          untraced(line.replace(amountWords(amounts[k].id).formula, "").replace(/ Source: .*$/u, ""), numbersOf(amounts[k].inputs)),
        ),
        ...untraced(step.because, numbersOf([because.confidence, because.reason?.numbers])),
        ...effects,
      ];
    });
    expect(wrong).toEqual([]);
  });
  test("every amount has a formula, a source, and inputs that are facts of the site or findings of this log", () => {
    const gas = findingOf(analysis.outcomes, "tank-charge")?.gasConstant ?? null;
    const volume = site.tankVolume?.value ?? Number.NaN;
    // The charge that the gas at work shows: Boyle's law, K / Vt less the air's own pressure.
    const charges = gas === null ? [] : [gas.value, gas.low, gas.high].map((energy) => energy / volume - site.atmosphere.value);
    const known = new Set([...facts, ...numbersOf(analysis.outcomes), ...charges]);
    for (const [i, step] of document.advice.entries()) {
      expect(step.calculation).toHaveLength(analysis.advice[i].amounts.length);
      for (const line of step.calculation) expect(line).toMatch(/Source: \S.{3,}\.$/u);
      for (const { inputs } of analysis.advice[i].amounts) {
        const set = inputs.find((input) => input.name === "set-pressure" || input.name === "cut-out")?.value ?? Number.NaN;
        const cutIn = inputs.find((input) => input.name === "cut-in")?.value ?? Number.NaN;
        // 15 to 20 psi below set pressure, or 2 psi below cut-in; never above where the pump starts. Common practice, no source.
        const settings = [...[15, 17.5, 20].map((psi) => set - psi * PSI), cutIn, cutIn - 2 * PSI];
        for (const input of inputs.filter(({ from }) => from !== "assumed")) {
          const sources = input.from === "practice" ? settings : [...known];
          const traces = sources.some((n) => Math.abs(n - input.value) <= 1e-6 * Math.abs(n));
          expect(traces, `${step.id}: ${input.name} (${input.from})`).toBe(true);
        }
      }
    }
  });
  test("every line of the acceptance sheet shows its own measured value and limit", () => {
    const lines = acceptanceSheet(inGauge(record, site.atmosphere.value), analysis);
    const wrong = document.acceptance.flatMap((shown, i) => [
      ...untraced(shown.value, numbersOf(lines[i].measured)),
      ...untraced(shown.limit ?? "", numbersOf(lines[i].limit)),
    ]);
    expect(wrong).toEqual([]);
  });
  test("what cannot be told is told with its own numbers", () => {
    const all = collectCannotTell(analysis.outcomes, analysis.segments);
    expect(all.flatMap((one) => untraced(sayCannotTell(one, units), numbersOf(one.detail)))).toEqual([]);
  });

  const said = new Set(stringsOf(document).flatMap((text) => numbersIn(text).map(({ text: shown }) => shown.replace(/^[\u2212-]/u, ""))));
  const inDocument = [...numbersOf(document)];
  const unsaid = (text: string) =>
    numbersIn(text).filter((n) => !said.has(n.text.replace(/^[\u2212-]/u, "")) && !tracesTo(n, inDocument) && !FIGURES.includes(n.value));

  test("the summary says no number that the document does not hold", () => {
    const shares = document.causes.map(({ confidence }) => Math.round(confidence * 100));
    const counts = [...document.advice.keys()].map((i) => i + 1);
    const wrong = unsaid(printSummary(document)).filter(
      ({ value }) => ![...shares, ...counts, document.record.faults.length - 10].includes(value),
    );
    expect(
      wrong.map(
        ({ text }) =>
          `${text} in ${printSummary(document)
            .split("\n")
            .filter((l) => l.includes(text))
            .join(" / ")}`,
      ),
    ).toEqual([]);
  });
  test("the report's sentences and tables say no number that the document does not hold", () => {
    const html = reportOf(record, document, bareOrder(units, { siteName: site.name, leaveOut: ["trace"] }));
    const text = html
      .replace(/<style>[\s\S]*?<\/style>|<svg[\s\S]*?<\/svg>|<head>[\s\S]*?<\/head>/g, " ")
      .replace(/<[^>]+>/g, "\n")
      .replaceAll("&amp;", "&")
      .replaceAll("&quot;", '"')
      .replaceAll("&#39;", "'");
    const wrong = text.split("\n").flatMap((line) => unsaid(line).map((n) => `"${n.text}" (${n.unit}) in: ${line}`));
    expect([...new Set(wrong)]).toEqual([]);
  });
});

function stringsOf(value: unknown): string[] {
  if (typeof value === "string") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(stringsOf) : [];
}
