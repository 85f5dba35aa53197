import type { SketchedColumn } from "../../analysis/import/body/reading-sketch";
import type { ImportChoices, ImportProgress, ImportResult, LogFile } from "../../analysis/import/import-log";
import { valueStep } from "../../analysis/numerics/value-step";
import type { Analysis } from "../../shared/findings/analysis";
import type { VisitMeasures } from "../../shared/findings/comparison";
import type { Outcome } from "../../shared/findings/finding";
import { ImportError } from "../../shared/problems/import-problem";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../shared/record/sampling";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { UnitChoice } from "../../shared/units/unit-choice";
import type { Look, LookRequest } from "../charts/looks/look";
import { buildPyramid } from "../charts/pyramid";
import type { ReportOrder } from "../report/report-input";
import { withFingerprints } from "./fingerprint";
import { logFile } from "./log-file";
import type { Answer, Detail, RecordOutline, Request, TraceChannel } from "./messages";
import type { ModelRun, ModelRunOrder } from "./model-run";

/** What follows reading: loaded when the first record is read. */
export type WorkingOut = {
  readonly analyseInSteps: (record: LogRecord, site: SiteFacts) => Generator<Outcome | undefined, Analysis>;
  readonly writeFindings: (record: LogRecord, analysis: Analysis, units: UnitChoice) => FindingsDocument;
  readonly measureVisit: (record: LogRecord, analysis: Analysis) => VisitMeasures;
  readonly makeLook: (request: LookRequest, record: LogRecord, analysis: Analysis) => Look;
};

/** What reads files: loaded with the first file, so that the page itself comes quickly. */
export type FileReading = {
  readonly importLog: (
    files: readonly LogFile[],
    choices: ImportChoices,
    onProgress: (progress: ImportProgress, sketch: () => readonly SketchedColumn[]) => void,
    stop: { readonly aborted: boolean },
  ) => Promise<ImportResult>;
};

/** The model, loaded when it is first asked for. */
export type Modelling = {
  readonly runModelInSteps: (record: LogRecord, analysis: Analysis, order: ModelRunOrder) => Generator<unknown, ModelRun>;
  readonly withEffects: (record: LogRecord, analysis: Analysis) => Generator<unknown, Analysis>;
};

/** The stations of the analysis that a worker calls: the real ones in the worker, small ones in tests. */
export type Stations = {
  readonly fileReading: () => Promise<FileReading>;
  readonly workingOut: () => Promise<WorkingOut>;
  readonly modelling: () => Promise<Modelling>;
  readonly reporting: () => Promise<{ readonly reportOf: (record: LogRecord, document: FindingsDocument, order: ReportOrder) => string }>;
};

type Running = { readonly ask: Request["ask"]; aborted: boolean };

/** Sends an answer; buffers in `transfer` are handed over, not copied. */
export type Send = (answer: Answer, transfer?: Transferable[]) => void;
export type Handle = (request: Request, send: Send) => Promise<void>;

/** Answers requests one after another and keeps the record of the last reading. Refusals and failures are answers too. */
export function makeHandle(stations: Stations): Handle {
  let record: LogRecord | null = null;
  let analysis: Analysis | null = null;
  /** Done once the record carries the fingerprints of its files. */
  let printed: Promise<void> = Promise.resolve();
  const running = new Map<number, Running>();

  async function read(request: Extract<Request, { ask: "read" }>, send: Send, stop: { aborted: boolean }): Promise<void> {
    const { id } = request;
    const onProgress = (progress: ImportProgress, sketch: () => readonly SketchedColumn[]) =>
      send({ answer: "progress", id, progress, sketch: sketch() });
    const { importLog } = await stations.fileReading();
    // Fetched while the file is read.
    const coming = stations.workingOut();
    coming.catch(() => {});
    const logs = request.files.map(logFile);
    const result = await importLog(logs, request.choices, onProgress, stop);
    if (stop.aborted) return send({ answer: "stopped", id });
    record = result.record;
    analysis = null;
    const traces = result.record.channels.map(traceChannel);
    send({ answer: "trace", id, outline: outline(result.record), layouts: result.layouts, traces }, buffersOf(traces));
    // Neither the trace nor the analysis waits for the fingerprints: the browser works them out beside it, and the document carries them.
    printed = Promise.all(logs.map(async ({ name, fingerprint }) => [name, await fingerprint()] as const)).then((prints) => {
      record = withFingerprints(result.record, new Map(prints));
    });
    await workOut(request, send, stop, (outcome) => {
      if (outcome?.state === "found") send({ answer: "found", id, found: outcome.finding });
    });
  }

  /** With the facts as they were, only the document is written anew (in other units). */
  async function workOut(
    { id, site, units }: { readonly id: number; readonly site: SiteFacts; readonly units: UnitChoice },
    send: Send,
    stop: { readonly aborted: boolean },
    onOutcome: (outcome: Outcome | undefined) => void = () => {},
  ): Promise<void> {
    const { analyseInSteps, writeFindings } = await stations.workingOut();
    const isKnown = analysis !== null && sameFacts(analysis.site, site);
    const worked = isKnown ? analysis : await lastOf(analyseInSteps(theRecord(), site), stop, onOutcome);
    await printed;
    if (worked === null || stop.aborted) return send({ answer: "stopped", id });
    analysis = worked;
    send({ answer: "findings", id, analysis: worked, document: writeFindings(theRecord(), worked, units) });
  }

  function theRecord(): LogRecord {
    if (record === null) throw new RangeError("asked about a record before one was read");
    return record;
  }

  function theAnalysis(): Analysis {
    if (analysis === null) throw new RangeError("asked about findings before they were worked out");
    return analysis;
  }

  /** Whatever rests on an analysis waits until the one under way is done or stopped; samples are given at once. */
  let working: Promise<void> = Promise.resolve();
  /** The model runs behind the analysis, one run after another; all else is answered between two of its steps. */
  let modelling: Promise<void> = Promise.resolve();

  async function answer(request: Exclude<Request, { ask: "stop" }>, send: Send, stop: { aborted: boolean }): Promise<void> {
    if (request.ask === "detail" || request.ask === "get-ready") return answerOne(request, send, stop);
    if (request.ask === "read" || request.ask === "rework") overtakeModel();
    if (isOfModel(request)) {
      const mine = Promise.all([working, modelling]).then(() => answerOne(request, send, stop));
      modelling = mine.catch(() => {});
      return mine;
    }
    const before = working;
    const mine = before.then(() => answerOne(request, send, stop));
    working = mine.catch(() => {});
    return mine;
  }

  /** What the model says of an analysis that is being replaced is of no use. */
  function overtakeModel(): void {
    for (const one of running.values()) if (isOfModel(one)) one.aborted = true;
  }

  async function answerOne(request: Exclude<Request, { ask: "stop" }>, send: Send, stop: { aborted: boolean }): Promise<void> {
    switch (request.ask) {
      case "get-ready":
        return void (await Promise.all([stations.fileReading(), stations.workingOut()]));
      case "read":
        return read(request, send, stop);
      case "rework":
        return workOut(request, send, stop);
      case "detail": {
        const detail = detailOf(theRecord(), request.from, request.to);
        const buffers = detail.channels.flatMap(({ times, values }) => [times.buffer, values.buffer]) as Transferable[];
        return send({ answer: "detail", id: request.id, detail }, buffers);
      }
      case "measures": {
        const { measureVisit } = await stations.workingOut();
        return send({ answer: "measures", id: request.id, measures: measureVisit(theRecord(), theAnalysis()) });
      }
      case "report": {
        const [{ writeFindings }, { reportOf }] = await Promise.all([stations.workingOut(), stations.reporting()]);
        const document = writeFindings(theRecord(), theAnalysis(), request.order.units);
        return send({ answer: "report", id: request.id, html: reportOf(theRecord(), document, request.order) });
      }
      case "run-model": {
        const { runModelInSteps } = await stations.modelling();
        const run = stop.aborted ? null : await lastOf(runModelInSteps(theRecord(), theAnalysis(), request.order), stop);
        return send({ answer: "run-model", id: request.id, run: run ?? { state: "overtaken" } });
      }
      case "effects": {
        const [{ writeFindings }, { withEffects }] = await Promise.all([stations.workingOut(), stations.modelling()]);
        const told = stop.aborted ? null : await lastOf(withEffects(theRecord(), theAnalysis()), stop);
        if (told === null) return send({ answer: "stopped", id: request.id });
        analysis = told;
        return send({ answer: "effects", id: request.id, analysis: told, document: writeFindings(theRecord(), told, request.units) });
      }
      case "look": {
        const { makeLook } = await stations.workingOut();
        return send({ answer: "look", id: request.id, look: makeLook(request.look, theRecord(), theAnalysis()) });
      }
    }
  }

  return async (request, send) => {
    if (request.ask === "stop") {
      const stop = running.get(request.id);
      if (stop) stop.aborted = true;
      return;
    }
    const stop: Running = { ask: request.ask, aborted: false };
    running.set(request.id, stop);
    try {
      await answer(request, send, stop);
    } catch (error) {
      send(failure(error, request.id, stop.aborted));
    } finally {
      running.delete(request.id);
    }
  };
}

const isOfModel = ({ ask }: Pick<Request, "ask">): boolean => ask === "run-model" || ask === "effects";

/** Goes through the steps and listens for messages between them. @returns null where it was stopped */
async function lastOf<S, T>(
  steps: Generator<S, T>,
  stop: { readonly aborted: boolean },
  onStep: (told: S) => void = () => {},
): Promise<T | null> {
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done === true) return step.value;
    onStep(step.value);
    await nextTask();
    if (stop.aborted) return null;
  }
}

/** A message to oneself comes behind those that wait already, and sooner than a timer. */
const nextTask = (): Promise<void> =>
  new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });

const sameFacts = (a: SiteFacts, b: SiteFacts): boolean => JSON.stringify(a) === JSON.stringify(b);

function failure(error: unknown, id: number, stopped: boolean): Answer {
  if (stopped) return { answer: "stopped", id };
  if (error instanceof ImportError) return { answer: "refused", id, problem: error.problem };
  return { answer: "broken", id, message: error instanceof Error ? error.message : String(error) };
}

function outline(record: LogRecord): RecordOutline {
  const { channels: _channels, origins: _origins, ...rest } = record;
  return rest;
}

function traceChannel(channel: Channel): TraceChannel {
  const { heading, role, position, unitInFile, quantity, sampling } = channel;
  const interval = medianInterval(channel);
  const pyramid = buildPyramid(channel, interval);
  const held = sampling.kind === "on-change" || quantity === "state";
  return {
    heading,
    role,
    position,
    unitInFile,
    quantity,
    samples: sampleCount(sampling),
    interval,
    step: valueStep(channel.values),
    held,
    even: sampling.kind === "even",
    pyramid,
  };
}

/** Median over up to a thousand and one intervals spread over the record. */
function medianInterval({ sampling }: Channel): number | null {
  if (sampling.kind === "even") return sampling.count > 1 ? sampling.step : null;
  const n = sampleCount(sampling);
  if (n < 2) return null;
  const taken = Math.min(n - 1, 1001);
  const intervals = Float64Array.from({ length: taken }, (_, k) => {
    const i = Math.floor((k * (n - 1)) / taken);
    return timeAt(sampling, i + 1) - timeAt(sampling, i);
  }).sort();
  return intervals[taken >> 1];
}

const buffersOf = (traces: readonly TraceChannel[]): Transferable[] =>
  traces.flatMap(({ pyramid }) => pyramid.levels.flatMap(({ min, max }) => [min.buffer, max.buffer])) as Transferable[];

/** The samples of every channel from the last one before `from` to the first one after `to`, so that lines run out of the picture. */
export function detailOf(record: LogRecord, from: number, to: number): Detail {
  const channels = record.channels.map(({ sampling, values }) => {
    const first = Math.max(0, indexAtOrAfter(sampling, from) - 1);
    const end = Math.min(sampleCount(sampling), indexAtOrAfter(sampling, to) + 1);
    const times = Float64Array.from({ length: Math.max(0, end - first) }, (_, k) => timeAt(sampling, first + k));
    return { times, values: values.slice(first, end) };
  });
  return { from, to, channels };
}
