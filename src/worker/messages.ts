import type { SketchedColumn } from "../../analysis/import/body/reading-sketch";
import type { ImportChoices, ImportProgress } from "../../analysis/import/import-log";
import type { Analysis } from "../../shared/findings/analysis";
import type { VisitMeasures } from "../../shared/findings/comparison";
import type { Finding } from "../../shared/findings/finding";
import type { ImportProblem } from "../../shared/problems/import-problem";
import type { FileLayout } from "../../shared/record/file-layout";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { UnitChoice } from "../../shared/units/unit-choice";
import type { Look, LookRequest } from "../charts/looks/look";
import type { Pyramid } from "../charts/pyramid";
import type { ReportOrder } from "../report/report-input";
import type { ModelRun, ModelRunOrder } from "./model-run";

/** A file as the page holds it: picked, dropped, or pasted text wrapped in a blob. */
export type PickedFile = { readonly name: string; readonly blob: Blob };

/** What the page asks of the worker. Each question carries a number that its answers repeat. */
export type Request =
  /** Loads what a file will need before one is there; not answered. */
  | { readonly ask: "get-ready"; readonly id: number }
  | {
      readonly ask: "read";
      readonly id: number;
      readonly files: readonly PickedFile[];
      readonly choices: ImportChoices;
      readonly site: SiteFacts;
      readonly units: UnitChoice;
    }
  | { readonly ask: "rework"; readonly id: number; readonly site: SiteFacts; readonly units: UnitChoice }
  | { readonly ask: "detail"; readonly id: number; readonly from: number; readonly to: number }
  | { readonly ask: "look"; readonly id: number; readonly look: LookRequest }
  /** What a comparison with another visit needs of the record. */
  | { readonly ask: "measures"; readonly id: number }
  | { readonly ask: "report"; readonly id: number; readonly order: ReportOrder }
  | { readonly ask: "run-model"; readonly id: number; readonly order: ModelRunOrder }
  /** What the fitted model says of each step of the advice. */
  | { readonly ask: "effects"; readonly id: number; readonly units: UnitChoice }
  | { readonly ask: "stop"; readonly id: number };

/** A record without its samples: all that the page shows of it beside the trace. */
export type RecordOutline = Omit<LogRecord, "channels" | "origins">;

/** A channel as the trace draws it: what it is, and its least and greatest values at every zoom. */
export type TraceChannel = Pick<Channel, "heading" | "role" | "position" | "unitInFile" | "quantity"> & {
  readonly samples: number;
  /** Median interval, s; null with fewer than two samples. */
  readonly interval: number | null;
  /** Step between neighbouring values of the signal, SI: no reading is finer; 0 where it has none. */
  readonly step: number;
  /** A value holds until the next one: drawn as steps. */
  readonly held: boolean;
  /** Evenly sampled: a stretch without a value is a hole, not slow sampling. */
  readonly even: boolean;
  readonly pyramid: Pyramid;
};

/** The samples themselves over a short window, one entry a channel in the order of the trace: times [n], s; values [n], SI, NaN where missing. */
export type Detail = {
  readonly from: number;
  readonly to: number;
  readonly channels: readonly { readonly times: Float64Array; readonly values: Float32Array | Float64Array }[];
};

export type Answer =
  | {
      readonly answer: "progress";
      readonly id: number;
      readonly progress: ImportProgress;
      /** The file being read, as far as it is read. */
      readonly sketch: readonly SketchedColumn[];
    }
  | {
      readonly answer: "trace";
      readonly id: number;
      readonly outline: RecordOutline;
      readonly layouts: readonly FileLayout[];
      readonly traces: readonly TraceChannel[];
    }
  /** What a detector found of a record whose findings are still being worked out. */
  | { readonly answer: "found"; readonly id: number; readonly found: Finding }
  | { readonly answer: "findings"; readonly id: number; readonly analysis: Analysis; readonly document: FindingsDocument }
  | { readonly answer: "detail"; readonly id: number; readonly detail: Detail }
  | { readonly answer: "look"; readonly id: number; readonly look: Look }
  | { readonly answer: "measures"; readonly id: number; readonly measures: VisitMeasures }
  | { readonly answer: "report"; readonly id: number; readonly html: string }
  | { readonly answer: "run-model"; readonly id: number; readonly run: ModelRun }
  | { readonly answer: "effects"; readonly id: number; readonly analysis: Analysis; readonly document: FindingsDocument }
  | { readonly answer: "refused"; readonly id: number; readonly problem: ImportProblem }
  | { readonly answer: "broken"; readonly id: number; readonly message: string }
  | { readonly answer: "stopped"; readonly id: number };
