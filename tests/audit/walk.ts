import { acceptanceSheet } from "../../analysis/acceptance/acceptance-sheet";
import { writeFindings } from "../../analysis/document/findings-document";
import { collectCannotTell, inOrderOfWeight } from "../../analysis/document/story-part";
import type { Analysis } from "../../shared/findings/analysis";
import { type Finding, findingOf } from "../../shared/findings/finding";
import { inGauge } from "../../shared/record/in-gauge";
import type { LogRecord } from "../../shared/record/log-record";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { amountWords } from "../../shared/wording/amount";
import { sayCannotTell } from "../../shared/wording/cannot-tell";
import { printSummary } from "../../src/command-line/print-summary";
import { reportOf } from "../../src/report/report-of-record";
import { bareOrder } from "../builders/report-order";
import { numbersIn, numbersOf, tracesTo } from "./numbers-in-text";

const PSI = 6894.757; // NIST SP 811 (2008), Appendix B

/** A log, the site it was read with, and what came of it. */
export type Walked = { readonly record: LogRecord; readonly site: SiteFacts; readonly analysis: Analysis };
/** All of it as it is shown in some units. */
export type Shown = Walked & { readonly units: UnitChoice; readonly document: FindingsDocument };

export const shownIn = (walked: Walked, units: UnitChoice): Shown => ({
  ...walked,
  units,
  document: writeFindings(walked.record, walked.analysis, units),
});

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

/** The numbers of a text that trace to none of the sources. */
const untraced = (text: string, sources: Iterable<number>): string[] => {
  const all = [...sources];
  return numbersIn(text).flatMap((n) => (tracesTo(n, all) ? [] : [`"${n.text}" (${n.unit}) in: ${text}`]));
};

/** Figures that the program's fixed sentences name; each stands in the code with this origin. */
const FIGURES: readonly number[] = [
  95, // level of every interval, in per cent: the findings document's own rule
];

function ofFindings({ analysis, site, document }: Shown): string[] {
  const findings = inOrderOfWeight(analysis.outcomes, site);
  return document.findings.flatMap(({ title, text }, i) => {
    const sources = new Set([...numbersOf(findings[i]), ...workedOut(findings[i])]);
    return [...untraced(title, sources), ...untraced(text, sources)];
  });
}

const ofReasons = ({ analysis, document }: Shown): string[] =>
  document.causes.flatMap((cause, i) =>
    (["for", "against"] as const).flatMap((side) =>
      cause[side].flatMap((sentence, k) => untraced(sentence, numbersOf(analysis.causes[i][side][k].numbers))),
    ),
  );

const ofSteps = ({ analysis, document }: Shown): string[] =>
  document.advice.flatMap((step, i) => {
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

/** Amounts without formula or source, and inputs that are no fact of the site, no finding of this log and no listed figure. */
function ofAmounts({ analysis, site, document }: Shown): string[] {
  const gas = findingOf(analysis.outcomes, "tank-charge")?.gasConstant ?? null;
  const volume = site.tankVolume?.value ?? Number.NaN;
  // The charge that the gas at work shows: Boyle's law, K / Vt less the air's own pressure.
  const charges = gas === null ? [] : [gas.value, gas.low, gas.high].map((energy) => energy / volume - site.atmosphere.value);
  const known = [...numbersOf(site), ...numbersOf(analysis.outcomes), ...charges];
  return document.advice.flatMap((step, i) => {
    const { amounts } = analysis.advice[i];
    const wrong = step.calculation.length === amounts.length ? [] : [`${step.id}: an amount without its calculation`];
    for (const line of step.calculation) if (!/Source: \S.{3,}\.$/u.test(line)) wrong.push(`${step.id}: no source in: ${line}`);
    for (const { inputs } of amounts) {
      const set = inputs.find((input) => input.name === "set-pressure" || input.name === "cut-out")?.value ?? Number.NaN;
      const cutIn = inputs.find((input) => input.name === "cut-in")?.value ?? Number.NaN;
      // 15 to 20 psi below set pressure, or 2 psi below cut-in; never above where the pump starts. Common practice, no source.
      const settings = [...[15, 17.5, 20].map((psi) => set - psi * PSI), cutIn, cutIn - 2 * PSI];
      for (const { name, from, value } of inputs.filter((input) => input.from !== "assumed")) {
        const sources = from === "practice" ? settings : known;
        if (!sources.some((n) => Math.abs(n - value) <= 1e-6 * Math.abs(n))) wrong.push(`${step.id}: ${name} (${from})`);
      }
    }
    return wrong;
  });
}

function ofAcceptance({ record, site, analysis, document }: Shown): string[] {
  const lines = acceptanceSheet(inGauge(record, site.atmosphere.value), analysis);
  return document.acceptance.flatMap((shown, i) => [
    ...untraced(shown.value, numbersOf(lines[i].measured)),
    ...untraced(shown.limit ?? "", numbersOf(lines[i].limit)),
  ]);
}

const ofCannotTell = ({ analysis, units }: Shown): string[] =>
  collectCannotTell(analysis.outcomes, analysis.segments).flatMap((one) => untraced(sayCannotTell(one, units), numbersOf(one.detail)));

/** What a text says that stands nowhere in the document, as a number or in a sentence. */
function unsaid({ document }: Shown, lines: readonly string[]): string[] {
  const plain = (text: string) => text.replace(/^[\u2212-]/u, "");
  const said = new Set(stringsOf(document).flatMap((text) => numbersIn(text).map(({ text: shown }) => plain(shown))));
  const inDocument = [...numbersOf(document)];
  const wrong = lines.flatMap((line) =>
    numbersIn(line).flatMap((n) =>
      said.has(plain(n.text)) || tracesTo(n, inDocument) || FIGURES.includes(n.value) ? [] : [`"${n.text}" (${n.unit}) in: ${line}`],
    ),
  );
  return [...new Set(wrong)];
}

function ofSummary(shown: Shown): string[] {
  const { document } = shown;
  const shares = document.causes.map(({ confidence }) => Math.round(confidence * 100));
  const counts = [...document.advice.keys()].map((i) => i + 1);
  const left = [...shares, ...counts, document.record.faults.length - 10].map(String);
  return unsaid(shown, [printSummary(document)]).filter((wrong) => !left.includes(/^"(\d+)/.exec(wrong)?.[1] ?? ""));
}

function ofReport(shown: Shown): string[] {
  const { record, site, document, units } = shown;
  const html = reportOf(record, document, bareOrder(units, { siteName: site.name, leaveOut: ["trace"] }));
  const text = html
    .replace(/(?<=Your water system was recorded[^<]*?),? for (\d+) (minute|hour|day)s?\b/gu, (length, count: string, unit: string) =>
      isLengthOf(record.duration, Number(count), unit) ? "" : length,
    )
    .replace(/<style>[\s\S]*?<\/style>|<svg[\s\S]*?<\/svg>|<head>[\s\S]*?<\/head>/g, " ")
    .replace(/<[^>]+>/g, "\n")
    .replaceAll("&amp;", "&")
    .replaceAll("&quot;", '"')
    .replaceAll("&#39;", "'");
  return unsaid(shown, text.split("\n"));
}

/** The record's own length, the one number that the document tells by its first and last instant only. */
const isLengthOf = (duration: number, count: number, unit: string): boolean =>
  Math.abs(duration / ({ minute: 60, hour: 3600 }[unit] ?? 86_400) - count) <= 0.5;

/** Each rule gives the numbers shown that break it, none where all trace. */
export const RULES = {
  "every number of a finding's sentences is a number of that finding": ofFindings,
  "every number of a reason is a number of that reason": ofReasons,
  "every amount of a step is its own range, and its calculation its own inputs and listed figures": ofSteps,
  "every amount has a formula, a source, and inputs that are facts of the site or findings of this log": ofAmounts,
  "every line of the acceptance sheet shows its own measured value and limit": ofAcceptance,
  "what cannot be told is told with its own numbers": ofCannotTell,
  "the summary says no number that the document does not hold": ofSummary,
  "the report's sentences and tables say no number that the document does not hold": ofReport,
} satisfies Record<string, (shown: Shown) => string[]>;

function stringsOf(value: unknown): string[] {
  if (typeof value === "string") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(stringsOf) : [];
}
