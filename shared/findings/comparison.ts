import type { Measured } from "../units/measured";

/** The measures that two visits are compared on; the list is complete. */
export const MEASURE_IDS = [
  "starts-per-hour",
  "short-cycles-per-day",
  "oscillating-share",
  "oscillation-height",
  "drift-at-steady-flow",
  "share-within-band",
] as const;
export type MeasureId = (typeof MEASURE_IDS)[number];

/** Sums over equal blocks of one record, plain numbers so that they can be kept in a visit file; all arrays shape [blocks]. */
export type BlockSums = {
  /** Time for which the pump state is known, s. */
  readonly pumpKnown: readonly number[];
  readonly starts: readonly number[];
  /** Null where the log cannot tell short runs. */
  readonly shortCycles: readonly number[] | null;
  /** Time that was looked at for an oscillation, s. */
  readonly lookedAt: readonly number[];
  /** Time compared with the set pressure, s, and within the band. */
  readonly tracked: readonly number[];
  readonly withinBand: readonly number[];
  /** Water drawn, m3; null where no flow was logged. */
  readonly drawn: readonly number[] | null;
};

/** Starts and short cycles as a slower log would have counted them, which misses runs and rests shorter than `atLeastS`. */
export type SlowerCount = {
  readonly atLeastS: number;
  readonly starts: readonly number[];
  readonly shortCycles: readonly number[] | null;
};

/** Pressure over equal steps of the day or of the pump's cycle, from all days or cycles laid over one another; Pa gauge, null where none reached. */
export type PressureProfile = {
  /** Days or cycles. */
  readonly count: number;
  /** Of the day, s after midnight; of a cycle, s after the start. */
  readonly fromS: number;
  readonly stepS: number;
  /** Lowest and highest in ten, and the middle, shape [steps]. */
  readonly low: readonly (number | null)[];
  readonly middle: readonly (number | null)[];
  readonly high: readonly (number | null)[];
};

/** What of a visit a comparison needs: kept in the visit file, so that it can be compared without its log. */
export type VisitMeasures = {
  /** Time of day at its first instant, by the site's clock, s after midnight; null for a log without a clock. */
  readonly beginsS: number | null;
  readonly blockS: number;
  readonly blocks: BlockSums;
  /** In rising order; where two neighbours would be the same, the first stands for both. */
  readonly slower: readonly SlowerCount[];
  /** Sampling of what shows the pump, s; null where it is not known or a log on change, which misses nothing. */
  readonly pumpIntervalS: number | null;
  /** The runs were read off the pressure itself: what a slower log hides of them changes which time counts as running. */
  readonly runsFromPressure: boolean;
  readonly shortLimitS: number;
  /** Most starts in any rolling hour. */
  readonly peakStartsPerHour: number | null;
  /** Half-width of the band around the set pressure, Pa; null where none was held against. */
  readonly bandPa: number | null;
  /** Slowest sampling of the pressure, s. */
  readonly intervalS: number | null;
  readonly episodes: readonly { readonly fromS: number; readonly toS: number; readonly periodS: number; readonly heightPa: number }[];
  /** Change of pressure in each steady stretch, Pa. */
  readonly driftsPa: readonly number[];
  readonly days: PressureProfile | null;
  readonly cycles: PressureProfile | null;
  /** Limits of the site at the time: null where none is stated or assumed. */
  readonly limits: { readonly [K in MeasureId]: number | null };
};

/** A visit's measures with the name it goes by. */
export type NamedMeasures = { readonly name: string; readonly measures: VisitMeasures };

export const VERDICTS = ["met", "better-but-not-met", "better", "no-change-shown", "worse", "cannot-compare"] as const;
/** "better": clearly lower or higher, where no limit is set. */
export type Verdict = (typeof VERDICTS)[number];

export const CANNOT_COMPARE_IDS = [
  "no-pump-state",
  "no-pressure",
  "no-set-pressure",
  "no-steady-draw",
  "too-short",
  "sampling-hides-it",
  "limits-differ",
  "other-hours",
] as const;
export type CannotCompareId = (typeof CANNOT_COMPARE_IDS)[number];

export type ComparedMeasure = {
  readonly id: MeasureId;
  /** 95 % intervals. Per hour, per day, shares 0 to 1, Pa. */
  readonly before: Measured | null;
  readonly after: Measured | null;
  /** After less before. */
  readonly difference: Measured | null;
  readonly limit: number | null;
  readonly verdict: Verdict;
  readonly because: CannotCompareId | null;
};

export type Comparison = {
  readonly measures: readonly ComparedMeasure[];
  /** The verdict of the visit, from the measures that have a limit. */
  readonly overall: Verdict;
  /** What makes the hours of both visits alike: the water drawn, the hour of the day, whole days; null where nothing does. */
  readonly matchedBy: "demand" | "hours" | "days" | null;
  /** Share of the time of both visits that had a like one to set against; null where nothing makes them alike. */
  readonly matchedShare: number | null;
  /** What the slower of two samplings would have missed in the other: periods below, s; null where both sample alike. */
  readonly hiddenBelowPeriodS: number | null;
  /** And runs and rests of the pump below, s. */
  readonly hiddenRunsBelowS: number | null;
};

/** A comparison with the names of what was compared, as page and report show it. */
export type ComparedVisits = {
  readonly comparison: Comparison;
  readonly beforeName: string;
  readonly afterName: string;
  /** Before and after laid over one another; null where either lacks it. */
  readonly days: readonly [PressureProfile, PressureProfile] | null;
  readonly cycles: readonly [PressureProfile, PressureProfile] | null;
};
