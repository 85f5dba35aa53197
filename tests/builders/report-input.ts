import { refusedDocument } from "../../analysis/document/findings-document";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import { US_UNITS } from "../../shared/units/unit-choice";
import type { ReportInput } from "../../src/report/report-input";

const PSI = 6894.757293168;
const at = (minute: number) => new Date(Date.UTC(2026, 2, 5, 8) + minute * 60_000).toISOString();
const span = (from: number, to: number) => ({ from: at(from), to: at(to) });

/** A document of one invented hour at one invented site, with something for every section of a report. */
export function exampleDocument(parts: Partial<FindingsDocument> = {}): FindingsDocument {
  const empty = refusedDocument({ kind: "none", message: "", file: null, row: null });
  return {
    ...empty,
    error: null,
    record: {
      ...empty.record,
      files: [{ name: "mill <lane>.csv", bytes: 1234, sha256: "ab".repeat(32) }],
      clock: "absolute",
      ...span(0, 60),
      rows: { accepted: 3600, rejected: 2, duplicate: 1, reordered: 0 },
      questions: [{ id: "date-order", text: "Is 03/04 in March or April?", options: ["dmy"], meaning: [""], assumed: "dmy" }],
      notes: [{ kind: "blank-rows", text: "Two blank rows were passed over." }],
      faults: [{ kind: "gap", channel: null, note: "=no rows", ...span(30, 35) }],
    },
    site: {
      name: { value: "Mill Lane", unit: null, from: "given", text: "Mill Lane" },
      setPressure: { value: 52 * PSI, unit: "psi", from: "given", text: "52 psi" },
      tankRatedPressure: { value: 60 * PSI, unit: "psi", from: "given", text: "60 psi" },
      limits: { band: { value: 3 * PSI, unit: "psi", from: "assumed", text: "3 psi" } },
    },
    running: {
      basis: "speed",
      runs: [
        { ...span(0, 2), complete: false },
        { ...span(5, 5.5), complete: true },
      ],
    },
    cycling: {
      ...empty.cycling,
      starts: 2,
      peakStartsPerHour: 12,
      shortCycle: { limitS: 60, count: 1, countLow: 1, countHigh: 1, runs: [1] },
    },
    oscillation: {
      episodes: [
        {
          channel: "P1",
          ...span(10, 20),
          periodS: { value: 12, low: 11, high: 13 },
          peakToPeakPa: { value: 4 * PSI, low: 3 * PSI, high: 5 * PSI },
          regularity: 0.9,
          shape: "sine",
          drivenBy: "loop",
        },
      ],
    },
    drift: { limitPa: 5 * PSI, windows: [{ ...span(40, 50), meanFlow: 1e-3, changePa: { value: -5, low: -9, high: -1 }, over: false }] },
    tracking: { ...empty.tracking, setPressurePa: 52 * PSI, bandPa: 3 * PSI, highestPa: 58 * PSI },
    causes: [
      { id: "precharge-low", name: "Precharge too low", confidence: 0.7, for: ["short runs"], against: ["steady"], toSeparate: "Read it." },
    ],
    cannotTell: [{ id: "no-flow-channel", about: "leak", text: "Without flow no leak is seen." }],
    advice: [
      {
        id: "raise-precharge",
        step: "change",
        do: "Raise the precharge.",
        amount: "34 psi",
        amounts: ["34 psi"],
        calculation: ["52 psi less 18 psi = 34 psi"],
        because: "it is low",
        expect: "Longer cycles.",
        ifWrong: "Half an hour lost.",
        sources: ["Boyle's law"],
        cautions: ["Drain the water side first."],
      },
    ],
    acceptance: [
      {
        id: "starts-per-hour",
        name: "Most starts in any hour",
        limit: "at most 10 (site facts)",
        limitLow: null,
        limitHigh: 10,
        measured: { value: 12, low: 12, high: 12 },
        value: "12",
        state: "not-met",
        wouldTell: null,
      },
    ],
    findings: [
      {
        kind: "oscillation",
        title: "Pressure oscillates",
        text: "Period 12 s.",
        places: [span(10, 20)],
        basis: "P1",
        method: "Periodogram.",
        wrongIf: "Sampling is slow.",
        sharpenedBy: null,
        overLimit: true,
      },
    ],
    ...parts,
  };
}

const wave = Array.from({ length: 60 }, (_, i) => (50 + (i % 5)) * PSI);

/** A report in order, with a picture of the whole and one of the finding; parts are overwritten by those given. */
export const exampleReport = (parts: Partial<ReportInput> = {}): ReportInput => ({
  siteName: "Mill Lane",
  document: exampleDocument(),
  trace: { fromS: 0, toS: 3600, channels: [{ heading: "P1", role: "pressure", quantity: "gaugePressure", low: wave, high: wave }] },
  closeUps: [
    {
      finding: 0,
      trace: { fromS: 600, toS: 900, channels: [{ heading: "P1", role: "pressure", quantity: "gaugePressure", low: wave, high: wave }] },
    },
  ],
  comparison: null,
  checklist: { entries: [{ step: "raise-precharge", done: false, note: "34 psi before" }], notes: "Key at the mill." },
  letterhead: { lines: ["Brook & Vale <Service>"], logo: null },
  units: US_UNITS,
  paper: "A4",
  leaveOut: [],
  writtenOn: "5 March 2026",
  ...parts,
});
