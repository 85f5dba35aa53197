import { refusedDocument } from "../../analysis/document/findings-document";
import type { VisitFile } from "../../shared/schemas/visit-file";

const zeros = [0, 0, 0];
const measuresOfAnHour: NonNullable<VisitFile["measures"]> = {
  beginsS: null,
  blockS: 1200,
  blocks: {
    pumpKnown: [1200, 1200, 1199.5],
    starts: [2, 3, 1],
    shortCycles: [1, 0, 0],
    lookedAt: [600, 700, 0],
    tracked: zeros,
    withinBand: zeros,
    drawn: null,
  },
  slower: [{ atLeastS: 60, starts: [1, 3, 1], shortCycles: null }],
  pumpIntervalS: 1,
  runsFromPressure: false,
  shortLimitS: 60,
  peakStartsPerHour: 6,
  bandPa: null,
  intervalS: 1,
  episodes: [{ fromS: 10, toS: 400, periodS: 12.5, heightPa: 21000 }],
  driftsPa: [-120.5],
  days: null,
  cycles: { count: 6, fromS: -40, stepS: 20, low: [3.1e5, null], middle: [3.2e5, null], high: [3.3e5, null] },
  limits: {
    "starts-per-hour": 10,
    "short-cycles-per-day": 0,
    "oscillating-share": null,
    "oscillation-height": 20684,
    "drift-at-steady-flow": 34474,
    "share-within-band": null,
  },
};

/** A small visit with every part filled in. */
export const visitFile = (parts: Partial<VisitFile> = {}): VisitFile => ({
  about: { id: "visit-1", title: "Hill Farm", saved: "2024-05-04T10:00:00.000Z", program: "0.1.0" },
  site: { setPressure: "52 psi", "limits.band": "3 psi" },
  choices: { answers: { "date-order": "dmy" }, columns: [{ heading: "Ch1", role: "pressure", unit: "bar" }], zone: "Europe/Lisbon" },
  checklist: { entries: [{ step: "check-precharge", done: true, note: "34 psi, gauge no. 2" }], notes: "Ask for the key at the farm." },
  findings: refusedDocument({ kind: "example", message: "an example of the form", file: null, row: null }),
  measures: measuresOfAnHour,
  before: { name: "Hill Farm (spring.csv)", measures: measuresOfAnHour },
  trace: {
    duration: 3600,
    channels: [{ heading: "Ch1", role: "pressure", quantity: "gaugePressure", low: [3.1e5, null], high: [3.4e5, null] }],
  },
  log: { files: [{ name: "log.csv", bytes: 3, sha256: null, content: "H4sI" }] },
  ...parts,
});
