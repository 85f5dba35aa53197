import type { Analysis } from "../../shared/findings/analysis";
import type {
  CyclingFinding,
  DriftFinding,
  Finding,
  OscillationFinding,
  Outcome,
  OverMarkedPressureFinding,
  SensorFinding,
  ShortCyclesFinding,
} from "../../shared/findings/finding";
import type { Span } from "../../shared/findings/span";
import { NO_SITE_FACTS, readSiteFacts } from "../../shared/site/read-site-facts";
import { measured } from "../../shared/units/measured";
import { gaugePascal, PASCAL_PER_PSI, pascalDifference } from "../../shared/units/pressure";
import { cubicMetrePerSecond, seconds } from "../../shared/units/quantity";

export const span = (from: number, to: number): Span => ({ from: seconds(from), to: seconds(to) });
const psi = (n: number) => pascalDifference(n * PASCAL_PER_PSI);

export const overMarked: OverMarkedPressureFinding = {
  kind: "over-marked-pressure",
  places: [span(100, 130)],
  channels: ["P1 [psi]"],
  marked: gaugePascal(125 * PASCAL_PER_PSI),
  highest: gaugePascal(131 * PASCAL_PER_PSI),
  total: seconds(30),
};

export const shortCycles: ShortCyclesFinding = {
  kind: "short-cycles",
  places: [span(0, 20), span(300, 352), span(600, 641)],
  channels: ["Speed"],
  limit: seconds(60),
  runs: [0, 1, 2],
  count: { value: 3, low: 3, high: 3 },
  shortest: seconds(20),
};

export const oscillation = (heightPsi: number): OscillationFinding => ({
  kind: "oscillation",
  places: [span(1000, 1600)],
  channels: ["P1 [psi]"],
  episodes: [
    {
      ...span(1000, 1600),
      channel: "P1 [psi]",
      period: measured(seconds(18.2), seconds(17.9), seconds(18.5)),
      peakToPeak: measured(psi(heightPsi), psi(heightPsi * 0.9), psi(heightPsi * 1.1)),
      heightIsLeast: false,
      meterSeesPump: false,
      regularity: 2.4,
      shape: "sine",
      drivenBy: "loop",
      share: 0.82,
      couldBeFoldedFrom: [],
    },
  ],
});

export const drift: DriftFinding = {
  kind: "drift",
  places: [span(2000, 2600)],
  channels: ["P1 [psi]", "Flow"],
  limit: psi(5),
  windows: [
    { ...span(2000, 2600), meanFlow: cubicMetrePerSecond(1e-3), change: measured(psi(-6.2), psi(-6.8), psi(-5.6)), over: true },
    { ...span(4000, 4400), meanFlow: null, change: measured(psi(1.1), psi(0.4), psi(1.8)), over: false },
  ],
};

/** Noise and nothing else: no limit is kept or broken. */
export const quietSensor: SensorFinding = {
  kind: "sensor",
  places: [],
  channels: ["P1 [psi]"],
  noise: psi(0.04),
  noiseGrowsWithFlow: false,
  noiseGrowth: null,
  lag: null,
  stuck: [],
  frozen: [],
  pinned: [],
  scaleRatio: null,
  resistanceBetween: null,
  equivalentDistance: null,
};

/** Starts of a pump whose motor is not known: nobody can say how many it may make. */
export const unlimitedStarts: CyclingFinding = {
  kind: "cycling",
  places: [span(0, 20)],
  channels: ["Speed"],
  starts: 1,
  startsPerHour: null,
  peakStartsPerHour: 1,
  peakHour: null,
  allowedStartsPerHour: null,
  allowedStartsFrom: null,
  medianRun: null,
  medianRest: null,
  cutIn: null,
  cutOut: null,
  startsByDraw: null,
  startsAtNight: null,
  expectedShortestCycle: null,
};

export const found = <F extends Finding>(finding: F): Outcome => ({ kind: finding.kind, state: "found", finding, limits: [] }) as Outcome;

/** An analysis with these outcomes and nothing else known; site facts as a site file would say them. */
export function analysisOf(outcomes: readonly Outcome[], site: Record<string, unknown> | null = null): Analysis {
  return {
    site: site === null ? NO_SITE_FACTS : readSiteFacts(site, "site.json"),
    faults: [],
    segments: {
      pump: { id: "no-pump-state", about: "starts", detail: {} },
      draw: { id: "no-flow-channel", about: "leak", detail: {} },
      steady: { id: "no-flow-channel", about: "drift", detail: {} },
      tank: { id: "no-flow-channel", about: "tank", detail: {} },
      meter: { place: null, from: null, certainty: 0 },
    },
    outcomes,
    causes: [],
    advice: [],
    failures: [],
  };
}
