import type { Change, FittedParameter, MeasureId, ParameterId, PredictedSpan, Proposal, WhatIfAnswer } from "../../shared/findings/what-if";

export type ModelRunOrder = {
  readonly changes: readonly Change[];
  readonly span: PredictedSpan;
  /** Look for the smallest change that meets the limits instead of taking `changes`. */
  readonly search: boolean;
};

export type ModelRun =
  | { readonly state: "no-model" }
  | { readonly state: "draw-not-known" }
  /** Something newer was asked for, or the facts changed. */
  | { readonly state: "overtaken" }
  | {
      readonly state: "run";
      readonly answer: WhatIfAnswer;
      readonly proposal: Proposal | null;
      /** Limits that the proposal meets at the likeliest values of the model but not in all of its spread. */
      readonly mayBreak: readonly MeasureId[];
      /** Whether a drive holds the pressure; a switch has no parameters of a drive. */
      readonly isDrive: boolean;
      readonly parameters: Readonly<Record<ParameterId, FittedParameter>>;
      /** Share of the pressure's variance that the fitted model explains; null where it could not be run against the log. */
      readonly explained: number | null;
      readonly recorded: { readonly times: Float64Array; readonly pressure: Float64Array };
    };
