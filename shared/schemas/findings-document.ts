import type { Finding } from "../findings/finding";

/** The saved and printed form of an analysis: version 1. All values SI; unknown is null, never 0 and never NaN. */
export const FINDINGS_FORMAT = "evenhead-findings";
export const FINDINGS_VERSION = 1;

/** ISO 8601 UTC for an absolute clock; seconds from the first row for a log with elapsed time only. */
export type Instant = string | number;
/** A 95 % interval; null where not known. */
export type MeasuredField = { readonly value: number; readonly low: number; readonly high: number } | null;

export type FindingsError = { readonly kind: string; readonly message: string; readonly file: string | null; readonly row: number | null };
export type SpanField = { readonly from: Instant; readonly to: Instant };

export type FindingsDocument = {
  readonly format: typeof FINDINGS_FORMAT;
  readonly version: typeof FINDINGS_VERSION;
  readonly program: string;
  readonly error: FindingsError | null;
  readonly record: {
    readonly files: readonly { readonly name: string; readonly bytes: number; readonly sha256: string | null }[];
    readonly clock: "absolute" | "elapsed" | null;
    readonly zone: string | null;
    readonly from: Instant | null;
    readonly to: Instant | null;
    readonly rows: { readonly accepted: number; readonly rejected: number; readonly duplicate: number; readonly reordered: number };
    readonly rejects: readonly { readonly file: string; readonly row: number; readonly why: string }[];
    readonly channels: readonly {
      readonly heading: string;
      readonly index: number;
      readonly role: string;
      readonly position: string | null;
      readonly unit: string | null;
      readonly quantity: string;
      readonly samples: number;
      readonly missing: number;
      readonly intervalS: number | null;
      readonly min: number | null;
      readonly max: number | null;
      readonly firstValues: readonly (number | null)[];
      readonly certainty: number;
      readonly reason: string;
    }[];
    readonly columns: readonly { readonly heading: string; readonly index: number; readonly role: string; readonly unit: string | null }[];
    readonly questions: readonly {
      readonly id: string;
      readonly text: string;
      readonly options: readonly string[];
      readonly meaning: readonly string[];
      readonly assumed: string;
    }[];
    readonly notes: readonly { readonly kind: string; readonly text: string }[];
    readonly faults: readonly ({ readonly kind: string; readonly channel: string | null; readonly note: string } & SpanField)[];
  };
  readonly site: Readonly<Record<string, unknown>>;
  readonly running: { readonly basis: string | null; readonly runs: readonly ({ readonly complete: boolean } & SpanField)[] };
  readonly cycling: {
    readonly starts: number | null;
    readonly peakStartsPerHour: number | null;
    readonly allowedStartsPerHour: number | null;
    /** `count` lies between `countLow` and `countHigh`: runs nearer to the limit than the log's interval may be on either side of it. */
    readonly shortCycle: {
      readonly limitS: number;
      readonly count: number | null;
      readonly countLow: number | null;
      readonly countHigh: number | null;
      readonly runs: readonly number[];
    };
    readonly medianRunS: number | null;
    readonly medianRestS: number | null;
    readonly cutInPa: number | null;
    readonly cutOutPa: number | null;
  };
  readonly oscillation: {
    readonly episodes: readonly ({
      readonly channel: string;
      readonly periodS: MeasuredField;
      readonly peakToPeakPa: MeasuredField;
      readonly regularity: number;
      readonly shape: string;
      readonly drivenBy: string;
    } & SpanField)[];
  };
  readonly drift: {
    readonly limitPa: number;
    readonly windows: readonly ({
      readonly meanFlow: number | null;
      readonly changePa: MeasuredField;
      readonly over: boolean;
    } & SpanField)[];
  };
  readonly tracking: {
    readonly setPressurePa: number | null;
    readonly meanErrorPa: number | null;
    readonly shareWithinBand: number | null;
    readonly bandPa: number | null;
    readonly lowestPa: number | null;
    readonly highestPa: number | null;
  };
  readonly tank: {
    readonly gasConstantJ: MeasuredField;
    readonly emptiesAtPa: MeasuredField;
    readonly emptiesBelowPa: number | null;
    readonly liveDrawdownM3: MeasuredField;
    readonly expectedGasConstantJ: number | null;
  };
  readonly leak: { readonly flowM3s: MeasuredField; readonly side: string; readonly minimumNightFlowM3s: number | null };
  readonly sensor: { readonly noisePa: number | null; readonly noiseGrowsWithFlow: boolean | null; readonly lagS: number | null };
  readonly causes: readonly {
    readonly id: string;
    /** In words. */
    readonly name: string;
    readonly confidence: number;
    readonly for: readonly string[];
    readonly against: readonly string[];
    readonly toSeparate: string;
  }[];
  readonly cannotTell: readonly { readonly id: string; readonly about: string; readonly text: string }[];
  readonly advice: readonly {
    readonly id: string;
    readonly step: "look" | "measure" | "change" | "bring";
    readonly do: string;
    readonly amount: string | null;
    /** The same one by one, as far as each has its calculation; behind them which to trust. */
    readonly amounts: readonly string[];
    /** One a amount: formula, the site's own numbers and where they are from, source. */
    readonly calculation: readonly string[];
    readonly because: string;
    readonly expect: string | null;
    readonly ifWrong: string;
    readonly sources: readonly string[];
    readonly cautions: readonly string[];
  }[];
  /** The sheet after installation, one line a check; `limit` and `value` as they read, numbers SI. Added to the contract's fields. */
  readonly acceptance: readonly {
    readonly id: string;
    readonly name: string;
    readonly limit: string | null;
    readonly limitLow: number | null;
    readonly limitHigh: number | null;
    readonly measured: MeasuredField;
    readonly value: string;
    readonly state: "met" | "not-met" | "cannot-tell";
    readonly wouldTell: string | null;
  }[];
  /** Every finding as a story line, safety first: what the page, the report and the summary print. Added to the contract's fields. */
  readonly findings: readonly {
    readonly kind: Finding["kind"];
    readonly title: string;
    readonly text: string;
    readonly places: readonly SpanField[];
    readonly basis: string;
    readonly method: string;
    readonly wrongIf: string;
    readonly sharpenedBy: string | null;
    /** Whether it breaks an acceptance limit of the site; null where there is no limit for it. */
    readonly overLimit: boolean | null;
  }[];
  /** Parts of the program that failed on this record, each with its sentence; the rest was worked out without them. Added to the contract's fields. */
  readonly failures: readonly { readonly part: string; readonly id: string; readonly text: string }[];
};
