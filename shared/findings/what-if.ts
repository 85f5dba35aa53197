/** What the model needs to know of a site; each has its name in shared/wording/what-if.ts. */
export const PARAMETER_IDS = [
  "gas-constant",
  "tank-volume",
  "set-pressure",
  "restart-pressure",
  "restart-delay",
  "stop-pressure",
  "shutoff",
  "steepness",
  "gain",
  "integral-time",
  "loop-lag",
  "lag-share",
  "ramp-time",
  "sleep-flow",
  "sleep-delay",
  "system-leak",
  "back-leak",
  "sensor-distance",
] as const;
/** Of a drive only: a pressure switch has none of them. */
export const DRIVE_PARAMETERS: readonly (typeof PARAMETER_IDS)[number][] = [
  "gain",
  "integral-time",
  "loop-lag",
  "lag-share",
  "ramp-time",
  "sleep-flow",
  "sleep-delay",
];
export type ParameterId = (typeof PARAMETER_IDS)[number];

export type ParameterOrigin = "log" | "facts" | "usual";

/**
 * One of them with its 95 % interval, SI. From the log, from the site facts, or, where neither fixes it, "usual": a common-practice value
 * with the wide spread it has from site to site, to be shown as such.
 */
export type FittedParameter = {
  readonly id: ParameterId;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Spread is even on this scale. */
  readonly scale: "log" | "linear";
  readonly from: ParameterOrigin;
};

/** What can be changed in the model, and what kind of quantity it is. Gain is a ratio to what it is now. */
export const CHANGE_KINDS = {
  precharge: "gaugePressure",
  "tank-volume": "volume",
  "sensor-distance": "length",
  "pipe-bore": "length",
  gain: "ratio",
  "integral-time": "time",
  "sleep-delay": "time",
  "set-pressure": "gaugePressure",
  "restart-pressure": "gaugePressure",
  leak: "flow",
} as const;
export type ChangeId = keyof typeof CHANGE_KINDS;
/** SI. */
export type Change = { readonly id: ChangeId; readonly to: number };

/** What a site is judged by. */
export const MEASURE_IDS = [
  "starts-per-hour",
  "short-cycles-per-hour",
  "oscillation-peak-to-peak",
  "share-oscillating",
  "drift-at-steady-flow",
  "lowest-pressure",
  "highest-pressure",
  "stored-water",
] as const;
export type MeasureId = (typeof MEASURE_IDS)[number];

/** Why the model cannot stand for a site or a stretch of it. */
export type OutsideModel =
  | { readonly id: "draw-not-known" }
  | { readonly id: "several-pumps" }
  | { readonly id: "explains-too-little"; readonly share: number }
  | { readonly id: "sampling-too-slow-for-loop"; readonly intervalS: number };

/** Why a prediction must not be leaned on. */
export type WhatIfWarning =
  | OutsideModel
  | { readonly id: "precharge-above-restart"; readonly precharge: number; readonly restart: number }
  /** Comes before all others: recorded in the log, reached by the model as the site stands, or only with the change. */
  | {
      readonly id: "over-marked-pressure";
      readonly highest: number;
      readonly marked: number;
      readonly when: "recorded" | "as-it-is" | "with-the-change";
    }
  /** The largest draws empty the tank before the pump has caught up, as they do not do now. */
  | { readonly id: "tank-runs-empty"; readonly precharge: number; readonly lowest: number }
  | { readonly id: "volume-not-known" }
  | { readonly id: "far-from-what-was-seen"; readonly change: Change };

/** A stretch of the record to predict, s from its first instant. */
export type PredictedSpan = { readonly from: number; readonly to: number };

export type PredictedMeasures = Readonly<Record<MeasureId, { readonly value: number; readonly low: number; readonly high: number }>>;

export type Prediction = {
  readonly span: PredictedSpan;
  /** Shape [n]: s from the record's first instant, and Pa gauge at the sensor. */
  readonly times: Float64Array;
  readonly pressure: Float32Array;
  readonly measures: PredictedMeasures;
  /** The longest stretch that swings; null where none does. */
  readonly swing: PredictedSpan | null;
};

export type WhatIfAnswer = {
  readonly changes: readonly Change[];
  /** What the log shows on the same measures; null where no detector could say. */
  readonly recorded: Readonly<Record<MeasureId, number | null>>;
  readonly now: Prediction;
  readonly after: Prediction;
  readonly warnings: readonly WhatIfWarning[];
};

/** What a search for the smallest change found. `changes` null: nothing it tried meets the limits; then `nearest` comes closest. */
export type Proposal = {
  readonly changes: readonly Change[] | null;
  readonly nearest: readonly Change[];
  readonly measures: Readonly<Record<MeasureId, number>>;
  /** Limits that stay broken with `nearest`, at the likeliest values of the model. */
  readonly broken: readonly MeasureId[];
  readonly tried: number;
};
