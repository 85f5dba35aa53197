import type { Measured } from "../units/measured";
import type { GaugePascal, PascalDifference } from "../units/pressure";
import type { CubicMetre, CubicMetrePerSecond, Joule, Seconds } from "../units/quantity";
import type { CannotTell } from "./cannot-tell";
import type { Span } from "./span";

/**
 * What every finding carries besides its numbers. The sentences (title, method, what would make it wrong, which fact sharpens it)
 * stand in shared/wording by kind.
 */
type Base<K extends string> = {
  readonly kind: K;
  /** Where on the trace it shows. */
  readonly places: readonly Span[];
  /** Headings of the channels it rests on. */
  readonly channels: readonly string[];
};

/** How the pump switched. Always found where the pump state is known. */
export type CyclingFinding = Base<"cycling"> & {
  readonly starts: number;
  /** Starts per hour of observed time with the exact Poisson interval (Garwood 1936). */
  readonly startsPerHour: Measured | null;
  /** Most starts in any rolling hour, and where. */
  readonly peakStartsPerHour: number;
  readonly peakHour: Span | null;
  readonly allowedStartsPerHour: number | null;
  /** The site's own limit, or motor practice by power for two-pole motors started across the line (NEMA MG 10): a drive's soft start bears more. */
  readonly allowedStartsFrom: "given" | "across-the-line" | null;
  readonly medianRun: Seconds | null;
  readonly medianRest: Seconds | null;
  readonly cutIn: Measured<GaugePascal> | null;
  readonly cutOut: Measured<GaugePascal> | null;
  /** Starts while nothing was drawn, in small and in large draws; null where draws are not known. */
  readonly startsByDraw: { readonly none: number; readonly small: number; readonly large: number } | null;
  readonly startsAtNight: number | null;
  /** What the gas law says the shortest cycle should be with the tank of the site facts; null without them. */
  readonly expectedShortestCycle: Seconds | null;
};

export type ShortCyclesFinding = Base<"short-cycles"> & {
  readonly limit: Seconds;
  /** Indexes into the pump state's runs. */
  readonly runs: readonly number[];
  /** How many there are; low and high count the runs that lie nearer to the limit than an interval of the log on its other side. */
  readonly count: Measured;
  readonly shortest: Seconds;
};

export type OscillationEpisode = Span & {
  readonly channel: string;
  readonly period: Measured<Seconds>;
  readonly peakToPeak: Measured<PascalDifference>;
  /** So few samples a wave that its crests may stand higher between them, or are flattened where each is a mean. */
  readonly heightIsLeast: boolean;
  /** Mean over three standard deviations of the autocorrelation's zero crossings: above 1 is regular. */
  readonly regularity: number;
  readonly shape: "sine" | "triangle" | "square" | "unclear";
  readonly drivenBy: "loop" | "demand" | "cycling" | "unknown";
  /** The flow meter sees the water that the pump brings to the tank: that swings with the pressure whoever drives. */
  readonly meterSeesPump: boolean;
  /** Share of the detrended variance that the tone carries, 0 to 1. */
  readonly share: number;
  /** Where a faster wave could fold onto this period at this sampling, s; empty where it cannot. */
  readonly couldBeFoldedFrom: readonly number[];
};
export type OscillationFinding = Base<"oscillation"> & { readonly episodes: readonly OscillationEpisode[] };

export type DriftWindow = Span & {
  readonly meanFlow: CubicMetrePerSecond | null;
  readonly change: Measured<PascalDifference>;
  readonly over: boolean;
};
export type DriftFinding = Base<"drift"> & { readonly limit: PascalDifference; readonly windows: readonly DriftWindow[] };

/** How pressure kept to its set pressure while water was drawn or the pump ran. */
export type TrackingFinding = Base<"tracking"> & {
  readonly setPressure: GaugePascal | null;
  readonly setPressureFrom: "given" | "log" | null;
  readonly meanError: PascalDifference | null;
  readonly band: PascalDifference | null;
  readonly shareWithinBand: number | null;
  readonly lowest: GaugePascal;
  readonly highest: GaugePascal;
  /** Fall of pressure per flow, Pa per m3/s, by robust regression over steady windows; null without flow. */
  readonly droop: Measured | null;
  /** Worst dip after a draw began and how long until back within the band. */
  readonly worstDip: { readonly at: Seconds; readonly depth: PascalDifference; readonly recovery: Seconds | null } | null;
  /** Another pressure that the drive was set to by the clock, as at night, and when; error and share are against it there. Null where it held one only. */
  readonly otherSetPressure: { readonly level: GaugePascal; readonly times: readonly Span[] } | null;
};

export type TankChargeFinding = Base<"tank-charge"> & {
  readonly gasConstant: Measured<Joule> | null;
  readonly emptiesAt: Measured<GaugePascal> | null;
  readonly emptiesBelow: GaugePascal | null;
  /** Water between cut-out and cut-in as the log shows it. */
  readonly liveDrawdown: Measured<CubicMetre> | null;
  readonly expectedGasConstant: Joule | null;
};

export type LeakDownFinding = Base<"leak-down"> & {
  readonly flow: Measured<CubicMetrePerSecond>;
  readonly side: "system" | "back" | "unknown";
  /** Least flow of the quiet hours of the night; null without flow or nights. */
  readonly minimumNightFlow: CubicMetrePerSecond | null;
};

export type SensorFinding = Base<"sensor"> & {
  readonly noise: PascalDifference | null;
  /** Whether noise grows with the square of flow; null where flow does not vary or is not logged. */
  readonly noiseGrowsWithFlow: boolean | null;
  readonly noiseGrowth: Measured | null;
  /** Lag of this sensor behind flow steps or a second pressure. */
  readonly lag: Measured<Seconds> | null;
  readonly stuck: readonly Span[];
  readonly frozen: readonly Span[];
  readonly pinned: readonly Span[];
  /** Ratio of recorded to expected pressure where the scale looks wrong; null where it does not or cannot be known. */
  readonly scaleRatio: number | null;
  /** Between two pressures: Pa per (m3/s)^2, and the equivalent length of the pipe of the site facts. */
  readonly resistanceBetween: Measured | null;
  readonly equivalentDistance: Measured | null;
};

export type PumpPerformanceFinding = Base<"pump-performance"> & {
  /** Pressure at full speed and little flow against what the facts or the record's own best allow, Pa. */
  readonly shutoffPressure: GaugePascal | null;
  readonly expectedShutoff: GaugePascal | null;
  /** Stretches where pressure and flow collapsed while the pump ran. */
  readonly lossOfPrime: readonly Span[];
  /** Stretches at full speed with pressure below the band: overdraw. */
  readonly overdraw: readonly Span[];
  /** Highest flow sustained for a minute, m3/s. */
  readonly peakFlow: CubicMetrePerSecond | null;
};

/** Figures of use that a report needs. */
export type DemandFinding = Base<"demand"> & {
  readonly volumePerDay: CubicMetre;
  readonly peakHourVolume: CubicMetre;
  readonly peakHour: Span;
  /** Null where the flow does not show when a draw begins and ends. */
  readonly draws: number | null;
  /** Time that the figures rest on. */
  readonly observed: Seconds;
  /** Where the flow meter stands, given or read from the log. */
  readonly meter: "after-tank" | "before-tank" | null;
  readonly meterFrom: "given" | "log" | null;
};

/** Recorded pressure above the tank's marked working pressure: comes before everything. */
export type OverMarkedPressureFinding = Base<"over-marked-pressure"> & {
  readonly marked: GaugePascal;
  readonly highest: GaugePascal;
  readonly total: Seconds;
};

export type Finding =
  | OverMarkedPressureFinding
  | CyclingFinding
  | ShortCyclesFinding
  | OscillationFinding
  | DriftFinding
  | TrackingFinding
  | TankChargeFinding
  | LeakDownFinding
  | SensorFinding
  | PumpPerformanceFinding
  | DemandFinding;
export type FindingKind = Finding["kind"];
export const FINDING_KINDS = [
  "over-marked-pressure",
  "cycling",
  "short-cycles",
  "oscillation",
  "drift",
  "tracking",
  "tank-charge",
  "leak-down",
  "sensor",
  "pump-performance",
  "demand",
] as const satisfies readonly FindingKind[];
export type FindingOf<K extends FindingKind> = Extract<Finding, { kind: K }>;

/** "Found nothing" and "could not look" are different answers. "broken": the detector failed and the others went on. */
export type Outcome<K extends FindingKind = FindingKind> =
  | { readonly kind: K; readonly state: "found"; readonly finding: FindingOf<K>; readonly limits: readonly CannotTell[] }
  | { readonly kind: K; readonly state: "clear"; readonly limits: readonly CannotTell[] }
  | { readonly kind: K; readonly state: "cannot-tell"; readonly because: readonly CannotTell[] }
  | { readonly kind: K; readonly state: "broken"; readonly message: string };

export function findingOf<K extends FindingKind>(outcomes: readonly Outcome[], kind: K): FindingOf<K> | null {
  const outcome = outcomes.find((o) => o.kind === kind && o.state === "found");
  return outcome?.state === "found" ? (outcome.finding as FindingOf<K>) : null;
}
