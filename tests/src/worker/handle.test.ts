import { describe, expect, test } from "vitest";
import { analyseInSteps } from "../../../analysis/analyse";
import { writeFindings } from "../../../analysis/document/findings-document";
import { NO_CHOICES } from "../../../analysis/import/import-log";
import type { Analysis } from "../../../shared/findings/analysis";
import { ImportError } from "../../../shared/problems/import-problem";
import { NO_SITE_FACTS, readSiteFacts } from "../../../shared/site/read-site-facts";
import type { SiteFacts } from "../../../shared/site/site-facts";
import { METRIC_UNITS, US_UNITS } from "../../../shared/units/unit-choice";
import { makeLook } from "../../../src/charts/looks/make-look";
import { reportOf } from "../../../src/report/report-of-record";
import { makeHandle, type Stations } from "../../../src/worker/handle";
import type { Answer, Request } from "../../../src/worker/messages";
import type { ModelRun } from "../../../src/worker/model-run";
import { stations } from "../../../src/worker/stations";
import { measureVisit } from "../../../src/worker/working-out";
import { channel, every, recordOf } from "../../builders/record";

const record = recordOf([
  channel(
    "pressure",
    every(1, 1000),
    Array.from({ length: 1000 }, (_, i) => i),
    "P1",
  ),
]);

/** Stations that read always the same record and count how often they are asked. */
function countingStations(): { readonly stations: Stations; readonly asked: { analyse: number } } {
  const asked = { analyse: 0 };
  const counted = (_record: unknown, site: SiteFacts): ReturnType<typeof analyseInSteps> => {
    asked.analyse++;
    return analyseInSteps(record, site);
  };
  const workingOut = async () => ({ analyseInSteps: counted, writeFindings, makeLook, measureVisit });
  const fileReading = async () => ({ importLog: async () => ({ record, layouts: [] }) });
  return {
    asked,
    stations: { fileReading, workingOut, reporting: async () => ({ reportOf }), modelling: () => import("../../../src/worker/modelling") },
  };
}

const readRequest = (id: number, files: Extract<Request, { ask: "read" }>["files"] = []): Request => ({
  ask: "read",
  id,
  files,
  choices: NO_CHOICES,
  site: NO_SITE_FACTS,
  units: US_UNITS,
});

async function answersOf(handle: ReturnType<typeof makeHandle>, request: Request): Promise<Answer[]> {
  const answers: Answer[] = [];
  await handle(request, (answer) => answers.push(answer));
  return answers;
}

describe("a reading", () => {
  test("gives the trace before the findings, and hands its buffers over", async () => {
    const kinds: string[] = [];
    const transfers: number[] = [];
    await makeHandle(countingStations().stations)(readRequest(1), (answer, transfer = []) => {
      kinds.push(answer.answer);
      transfers.push(transfer.length);
    });
    expect(kinds.filter((kind) => kind !== "found")).toEqual(["trace", "findings"]);
    expect([kinds.at(0), kinds.at(-1)]).toEqual(["trace", "findings"]);
    expect(transfers[0]).toBeGreaterThan(0);
  });

  test("tells what each detector found as soon as it has, before the whole", async () => {
    const runs = Array.from({ length: 1200 }, (_, i) => (i % 120 < 60 ? 1 : 0));
    const running = recordOf([channel("running", every(1, 1200), runs, "Pump"), ...record.channels]);
    const { stations: counted } = countingStations();
    const told = await answersOf(
      makeHandle({
        ...counted,
        fileReading: async () => ({ importLog: async () => ({ record: running, layouts: [] }) }),
        workingOut: stations.workingOut,
      }),
      readRequest(1),
    );
    const last = told.at(-1);
    const found = told.flatMap((one) => (one.answer === "found" ? [one.found] : []));
    expect(found.length).toBeGreaterThan(0);
    expect(told.map(({ answer }) => answer)).toEqual(["trace", ...found.map(() => "found"), "findings"]);
    expect(last?.answer === "findings" && last.analysis.outcomes.flatMap((one) => (one.state === "found" ? [one.finding] : []))).toEqual(
      found,
    );
  });

  test("of a real file ends with the findings document of that file", async () => {
    const text = `Time,P1 [psi]\n${Array.from({ length: 300 }, (_, i) => `2024-05-14 10:${String(Math.floor(i / 60)).padStart(2, "0")}:${String(i % 60).padStart(2, "0")},52.1`).join("\n")}\n`;
    const answers = await answersOf(makeHandle(stations), readRequest(1, [{ name: "a.csv", blob: new Blob([text]) }]));
    const last = answers.at(-1);
    expect(last?.answer === "findings" && last.document.record.rows.accepted).toBe(300);
    expect(answers.some(({ answer }) => answer === "progress")).toBe(true);
  });

  test("that cannot go on is refused with its problem; a failure is an answer too", async () => {
    const refusing: Stations = {
      ...countingStations().stations,
      fileReading: async () => ({
        importLog: async () => {
          throw new ImportError({ id: "empty-file", file: "a.csv" });
        },
      }),
    };
    expect(await answersOf(makeHandle(refusing), readRequest(1))).toEqual([
      { answer: "refused", id: 1, problem: { id: "empty-file", file: "a.csv" } },
    ]);
    expect(await answersOf(makeHandle(refusing), { ask: "detail", id: 2, from: 0, to: 1 })).toMatchObject([{ answer: "broken", id: 2 }]);
  });

  test("that is stopped says so and nothing more", async () => {
    let goOn = () => {};
    const slow: Stations = {
      ...countingStations().stations,
      fileReading: async () => ({
        importLog: () => new Promise((resolve) => (goOn = () => resolve({ record, layouts: [] }))),
      }),
    };
    const handle = makeHandle(slow);
    const answers = answersOf(handle, readRequest(7));
    await handle({ ask: "stop", id: 7 }, () => {});
    await new Promise((later) => setTimeout(later));
    goOn();
    expect(await answers).toEqual([{ answer: "stopped", id: 7 }]);
  });
});

describe("a run of the model", () => {
  const order = { changes: [], span: { from: 0, to: 1 }, search: false };
  /** A model whose runs take so many steps, and that tells how many were taken. */
  function stepping(steps: number) {
    const taken: number[] = [];
    const runModelInSteps = function* (): Generator<undefined, ModelRun> {
      const mine = taken.push(0) - 1;
      for (let i = 0; i < steps; i++) {
        taken[mine]++;
        yield;
      }
      return { state: "no-model" };
    };
    const withEffects = function* (_record: unknown, analysis: Analysis): Generator<undefined, Analysis> {
      yield;
      return { ...analysis, advice: [] };
    };
    return { taken, handle: makeHandle({ ...countingStations().stations, modelling: async () => ({ runModelInSteps, withEffects }) }) };
  }

  test("that was overtaken stops in its course, and the newer one is answered", async () => {
    const { taken, handle } = stepping(2000);
    await answersOf(handle, readRequest(1));
    const older = answersOf(handle, { ask: "run-model", id: 2, order });
    const newer = answersOf(handle, { ask: "run-model", id: 3, order });
    await handle({ ask: "stop", id: 2 }, () => {});
    expect(await older).toEqual([{ answer: "run-model", id: 2, run: { state: "overtaken" } }]);
    expect(await newer).toEqual([{ answer: "run-model", id: 3, run: { state: "no-model" } }]);
    expect(taken.at(-1)).toBe(2000);
    expect(taken.length === 1 || taken[0] < 1000).toBe(true);
  });

  test("keeps nobody waiting: samples and looks are answered between two of its steps", async () => {
    const { taken, handle } = stepping(2000);
    await answersOf(handle, readRequest(1));
    const running = answersOf(handle, { ask: "run-model", id: 2, order });
    expect(await answersOf(handle, { ask: "measures", id: 3 })).toMatchObject([{ answer: "measures" }]);
    expect(taken[0] ?? 0).toBeLessThan(2000);
    await running;
  });

  test("for each step of the advice gives the analysis and its document anew, which the next question meets", async () => {
    const { handle } = stepping(1);
    await answersOf(handle, readRequest(1));
    const [told] = await answersOf(handle, { ask: "effects", id: 2, units: US_UNITS });
    expect(told).toMatchObject({ answer: "effects", id: 2, analysis: { advice: [] }, document: { advice: [] } });
    const [again] = await answersOf(handle, { ask: "rework", id: 3, site: NO_SITE_FACTS, units: METRIC_UNITS });
    expect(again).toMatchObject({ answer: "findings", analysis: { advice: [] } });
  });

  test("ends where the facts change", async () => {
    const { handle } = stepping(1_000_000);
    await answersOf(handle, readRequest(1));
    const running = answersOf(handle, { ask: "run-model", id: 2, order });
    await new Promise((later) => setTimeout(later));
    await answersOf(handle, { ask: "rework", id: 3, site: readSiteFacts({ setPressure: "52 psi" }, ""), units: US_UNITS });
    expect(await running).toMatchObject([{ run: { state: "overtaken" } }]);
  });
});

describe("working out again", () => {
  test("other units change the sentences, not the analysis; other facts change both", async () => {
    const counted = countingStations();
    const handle = makeHandle(counted.stations);
    await answersOf(handle, readRequest(1));
    await answersOf(handle, { ask: "rework", id: 2, site: NO_SITE_FACTS, units: METRIC_UNITS });
    expect(counted.asked.analyse).toBe(1);
    await answersOf(handle, { ask: "rework", id: 3, site: readSiteFacts({ setPressure: "52 psi" }, ""), units: METRIC_UNITS });
    expect(counted.asked.analyse).toBe(2);
  });
});

describe("a working out under way", () => {
  const other = readSiteFacts({ setPressure: "52 psi" }, "");

  test("is stopped half-way, and the findings before it hold", async () => {
    const handle = makeHandle(countingStations().stations);
    await answersOf(handle, readRequest(1));
    const stopped = answersOf(handle, { ask: "rework", id: 2, site: other, units: METRIC_UNITS });
    await handle({ ask: "stop", id: 2 }, () => {});
    expect(await stopped).toEqual([{ answer: "stopped", id: 2 }]);
    const [again] = await answersOf(handle, { ask: "rework", id: 3, site: NO_SITE_FACTS, units: METRIC_UNITS });
    expect(again.answer === "findings" && again.analysis.site).toEqual(NO_SITE_FACTS);
  });

  test("lets samples through and keeps back what rests on its outcome", async () => {
    const handle = makeHandle(countingStations().stations);
    await answersOf(handle, readRequest(1));
    const order: string[] = [];
    const note = (answer: Answer) => void order.push(answer.answer);
    const rework = handle({ ask: "rework", id: 2, site: other, units: METRIC_UNITS }, note);
    const measures = handle({ ask: "measures", id: 3 }, note);
    const detail = handle({ ask: "detail", id: 4, from: 1, to: 2 }, note);
    await Promise.all([rework, measures, detail]);
    expect(order).toEqual(["detail", "findings", "measures"]);
  });
});

test("detail gives the samples of the window and one neighbour on either side", async () => {
  const handle = makeHandle(countingStations().stations);
  await answersOf(handle, readRequest(1));
  const [answer] = await answersOf(handle, { ask: "detail", id: 2, from: 10.5, to: 12.5 });
  expect(answer.answer === "detail" && [...answer.detail.channels[0].times]).toEqual([10, 11, 12, 13]);
  expect(answer.answer === "detail" && [...answer.detail.channels[0].values]).toEqual([10, 11, 12, 13]);
});

test("neither the trace nor what is found waits for the fingerprints of the files; the findings carry them", async () => {
  let hand: (bytes: ArrayBuffer) => void = () => {};
  const slow = { size: 3, arrayBuffer: () => new Promise<ArrayBuffer>((resolve) => (hand = resolve)) } as unknown as Blob;
  const { stations } = countingStations();
  const named = { ...record, files: [{ name: "a.csv", bytes: 3, sha256: null }] };
  const handle = makeHandle({ ...stations, fileReading: async () => ({ importLog: async () => ({ record: named, layouts: [] }) }) });
  const answers: Answer[] = [];
  const done = handle(readRequest(1, [{ name: "a.csv", blob: slow }]), (answer) => answers.push(answer));
  await expect.poll(() => answers.map(({ answer }) => answer)).toEqual(["trace", "found", "found"]);
  hand(new TextEncoder().encode("abc").buffer);
  await done;
  const findings = answers.find((answer) => answer.answer === "findings");
  // SHA-256 of "abc": FIPS 180-4, example B.1
  expect(findings?.document.record.files[0].sha256).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
});
