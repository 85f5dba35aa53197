import type { ImportChoices } from "../../analysis/import/import-log";
import type { VisitMeasures } from "../../shared/findings/comparison";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { UnitChoice } from "../../shared/units/unit-choice";
import type { Look, LookRequest } from "../charts/looks/look";
import type { ReportOrder } from "../report/report-input";
import type { Answer, Detail, PickedFile, Request } from "./messages";
import type { ModelRun, ModelRunOrder } from "./model-run";

/** The part of a Worker that the client uses; tests give their own. */
export type WorkerPort = Pick<Worker, "postMessage" | "terminate"> & {
  onmessage: ((event: MessageEvent<Answer>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
};
export type Listen = (answer: Answer) => void;
/** Stops a job at once; its listener hears "stopped", if anything. */
export type Stop = () => void;

export type ReadJob = {
  readonly files: readonly PickedFile[];
  readonly choices: ImportChoices;
  readonly site: SiteFacts;
  readonly units: UnitChoice;
};

export type AnalysisClient = {
  /** Lets the worker that waits for the next files load what it will need, when files seem to be coming. */
  getReady(): void;
  /** Reads files and works out the findings: progress, then "trace", "found" one by one, then "findings"; or one of refused, broken. */
  read(job: ReadJob, listen: Listen): Stop;
  /** Works out the findings of the record again with other facts. */
  rework(site: SiteFacts, units: UnitChoice, listen: Listen): Stop;
  detail(from: number, to: number): Promise<Detail | null>;
  look(request: LookRequest): Promise<Look | null>;
  /** What a comparison needs of the record on the page; null where there is none. */
  measures(): Promise<VisitMeasures | null>;
  /** The same of other files, read by a worker of their own that is let go afterwards. */
  measuresOf(job: ReadJob): Promise<VisitMeasures | Extract<Answer, { answer: "refused" | "broken" | "stopped" }>>;
  /** The report of the record on the page as one HTML file; null where there is none. */
  report(order: ReportOrder): Promise<string | null>;
  /**
   * Runs the fitted model of the record on the page with changes; null where there is none, or the run failed. Once `overtaken` is aborted
   * the answer is "overtaken" at once, and the worker is free for the next.
   */
  runModel(order: ModelRunOrder, overtaken?: AbortSignal): Promise<ModelRun | null>;
  /** What the fitted model says of each step of the advice; null where there is no record, or it was stopped or failed. */
  effects(units: UnitChoice): Promise<Extract<Answer, { answer: "effects" }> | null>;
  /** Lets go of everything. */
  close(): void;
};

/** Answers after which more follow to the same question. */
const GOES_ON: readonly Answer["answer"][] = ["progress", "trace", "found"];

type Bench = { readonly port: WorkerPort; readonly listeners: Map<number, Listen> };

/**
 * Speaks with the analysis worker. Each reading has a worker of its own: stopping ends it for certain and gives its memory back, and
 * the record before stays at hand until the new one is read.
 */
export function makeAnalysisClient(makeWorker: () => WorkerPort): AnalysisClient {
  let nextId = 1;
  let current: Bench | null = null;
  let spare: Bench | null = bench();
  let reading: Bench | null = null;
  /** The worker whose record stands on the page: the reading one from its trace on. */
  let shown: Bench | null = null;

  function bench(): Bench {
    const made: Bench = { port: makeWorker(), listeners: new Map() };
    made.port.onmessage = ({ data }) => {
      const listen = made.listeners.get(data.id);
      if (!GOES_ON.includes(data.answer)) made.listeners.delete(data.id);
      listen?.(data);
    };
    made.port.onerror = (event) => {
      const waiting = [...made.listeners];
      made.listeners.clear();
      for (const [id, listen] of waiting) listen({ answer: "broken", id, message: event.message });
    };
    return made;
  }

  function end(ended: Bench | null): void {
    const waiting = [...(ended?.listeners ?? [])];
    ended?.listeners.clear();
    ended?.port.terminate();
    // Nobody waits for ever: open questions are answered "stopped".
    for (const [id, listen] of waiting) listen({ answer: "stopped", id });
  }

  /** The reading is done: its worker takes the place of the one before. */
  function keep(at: Bench): void {
    end(current);
    current = at;
    reading = null;
    spare ??= bench();
  }

  /** The reading came to nothing: the record before is shown again. */
  function drop(at: Bench): void {
    reading = null;
    shown = current;
    spare ??= bench();
    end(at);
  }

  function ask(at: Bench, request: Request, listen: Listen): Stop {
    at.listeners.set(request.id, listen);
    at.port.postMessage(request);
    return () => {
      at.listeners.delete(request.id);
      at.port.postMessage({ ask: "stop", id: request.id } satisfies Request);
    };
  }

  function askCurrent(make: (id: number) => Request): Promise<Answer | null> {
    const at = shown;
    if (at === null) return Promise.resolve(null);
    return new Promise((resolve) => {
      const request = make(nextId++);
      ask(at, request, resolve);
    });
  }

  return {
    getReady() {
      spare?.port.postMessage({ ask: "get-ready", id: nextId++ } satisfies Request);
    },
    read(job, listen) {
      if (reading !== null) drop(reading);
      const at = spare ?? bench();
      spare = null;
      reading = at;
      const id = nextId++;
      ask(at, { ask: "read", id, ...job }, (answer) => {
        if (answer.answer === "trace") shown = at;
        else if (answer.answer === "findings") keep(at);
        else if (!GOES_ON.includes(answer.answer) && reading === at) drop(at);
        listen(answer);
      });
      return () => {
        if (reading === at) drop(at);
      };
    },
    rework(site, units, listen) {
      const at = current;
      if (at === null) return () => {};
      return ask(at, { ask: "rework", id: nextId++, site, units }, listen);
    },
    async detail(from, to) {
      const answer = await askCurrent((id) => ({ ask: "detail", id, from, to }));
      return answer?.answer === "detail" ? answer.detail : null;
    },
    async look(look) {
      const answer = await askCurrent((id) => ({ ask: "look", id, look }));
      return answer?.answer === "look" ? answer.look : null;
    },
    async measures() {
      const answer = await askCurrent((id) => ({ ask: "measures", id }));
      return answer?.answer === "measures" ? answer.measures : null;
    },
    measuresOf(job) {
      const at = bench();
      return new Promise((resolve) => {
        ask(at, { ask: "read", id: nextId++, ...job }, (answer) => {
          if (answer.answer === "refused" || answer.answer === "broken" || answer.answer === "stopped") {
            end(at);
            resolve(answer);
          } else if (answer.answer === "findings") {
            ask(at, { ask: "measures", id: nextId++ }, (worked) => {
              end(at);
              if (worked.answer === "measures") resolve(worked.measures);
              else if (worked.answer === "broken" || worked.answer === "stopped") resolve(worked);
            });
          }
        });
      });
    },
    async report(order) {
      const answer = await askCurrent((id) => ({ ask: "report", id, order }));
      return answer?.answer === "report" ? answer.html : null;
    },
    async effects(units) {
      const answer = await askCurrent((id) => ({ ask: "effects", id, units }));
      return answer?.answer === "effects" ? answer : null;
    },
    async runModel(order, overtaken) {
      const at = shown;
      if (at === null) return null;
      if (overtaken?.aborted === true) return { state: "overtaken" };
      return new Promise((resolve) => {
        const stop = ask(at, { ask: "run-model", id: nextId++, order }, (answer) =>
          resolve(answer.answer === "run-model" ? answer.run : null),
        );
        overtaken?.addEventListener("abort", () => {
          stop();
          resolve({ state: "overtaken" });
        });
      });
    },
    close() {
      end(current);
      end(reading);
      end(spare);
      current = null;
      reading = null;
      spare = null;
      shown = null;
    },
  };
}
