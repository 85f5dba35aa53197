import { describe, expect, test } from "vitest";
import { NO_CHOICES } from "../../../analysis/import/import-log";
import { NO_SITE_FACTS } from "../../../shared/site/read-site-facts";
import { US_UNITS } from "../../../shared/units/unit-choice";
import { makeAnalysisClient, type ReadJob, type WorkerPort } from "../../../src/worker/analysis-client";
import type { Answer, Request } from "../../../src/worker/messages";

/** A worker that a test plays by hand. */
type Played = WorkerPort & { readonly asked: Request[]; ended: boolean; say(answer: unknown): void };

function playedWorkers(): { readonly made: Played[]; make(): WorkerPort } {
  const made: Played[] = [];
  return {
    made,
    make() {
      const port: Played = {
        asked: [],
        ended: false,
        onmessage: null,
        onerror: null,
        postMessage: (request: Request) => void port.asked.push(request),
        terminate: () => {
          port.ended = true;
        },
        say: (answer) => port.onmessage?.({ data: answer } as MessageEvent<Answer>),
      };
      made.push(port);
      return port;
    },
  };
}

const job: ReadJob = { files: [], choices: NO_CHOICES, site: NO_SITE_FACTS, units: US_UNITS };
const idOf = (port: Played) => port.asked[0].id;

/** Plays a reading to its end on the worker that got it. */
function finishReading(port: Played): void {
  port.say({ answer: "trace", id: idOf(port) });
  port.say({ answer: "findings", id: idOf(port) });
}

describe("a reading has a worker of its own", () => {
  test("stopping ends that worker at once, and the record before is still at hand", async () => {
    const workers = playedWorkers();
    const client = makeAnalysisClient(workers.make);
    client.read(job, () => {});
    const [first] = workers.made;
    finishReading(first);

    const heard: string[] = [];
    const stop = client.read(job, ({ answer }) => heard.push(answer));
    const second = workers.made.find((port) => port !== first && port.asked.length > 0)!;
    second.say({ answer: "progress", id: idOf(second) });
    stop();
    expect(second.ended).toBe(true);
    expect(heard).toEqual(["progress", "stopped"]);
    second.say({ answer: "findings", id: idOf(second) });
    expect(heard).toHaveLength(2);

    expect(first.ended).toBe(false);
    const detail = client.detail(0, 1);
    first.say({ answer: "detail", id: first.asked.at(-1)?.id, detail: { from: 0, to: 1, channels: [] } });
    expect(await detail).toEqual({ from: 0, to: 1, channels: [] });
  });

  test("a finished reading lets the worker before go", () => {
    const workers = playedWorkers();
    const client = makeAnalysisClient(workers.make);
    client.read(job, () => {});
    finishReading(workers.made[0]);
    client.read(job, () => {});
    const second = workers.made[1];
    expect(workers.made[0].ended).toBe(false);
    finishReading(second);
    expect(workers.made[0].ended).toBe(true);
    expect(second.ended).toBe(false);
  });

  test("a refused reading leaves the record before on the page", async () => {
    const workers = playedWorkers();
    const client = makeAnalysisClient(workers.make);
    client.read(job, () => {});
    finishReading(workers.made[0]);
    const heard: string[] = [];
    client.read(job, ({ answer }) => heard.push(answer));
    workers.made[1].say({ answer: "refused", id: idOf(workers.made[1]), problem: { id: "no-files" } });
    expect(heard).toEqual(["refused"]);
    expect([workers.made[0].ended, workers.made[1].ended]).toEqual([false, true]);
  });
});

test("the worker that waits for the next files is the one that gets ready", () => {
  const workers = playedWorkers();
  const client = makeAnalysisClient(workers.make);
  client.getReady();
  client.read(job, () => {});
  expect(workers.made[0].asked.map(({ ask }) => ask)).toEqual(["get-ready", "read"]);
});

test("a reading goes on after each finding that it tells", () => {
  const workers = playedWorkers();
  const heard: string[] = [];
  makeAnalysisClient(workers.make).read(job, ({ answer }) => heard.push(answer));
  const [port] = workers.made;
  for (const answer of ["trace", "found", "found", "findings"]) port.say({ answer, id: idOf(port) });
  expect(heard).toEqual(["trace", "found", "found", "findings"]);
  expect(port.ended).toBe(false);
});

test("a question that a closed worker leaves open is answered with nothing, not waited for", async () => {
  const workers = playedWorkers();
  const client = makeAnalysisClient(workers.make);
  client.read(job, () => {});
  finishReading(workers.made[0]);
  const open = client.detail(0, 1);
  client.close();
  expect(await open).toBeNull();
  expect(workers.made.every(({ ended }) => ended)).toBe(true);
});

test("a worker that fails to run is an answer", () => {
  const workers = playedWorkers();
  const heard: Answer[] = [];
  makeAnalysisClient(workers.make).read(job, (answer) => heard.push(answer));
  workers.made[0].onerror?.({ message: "out of memory" } as ErrorEvent);
  expect(heard).toMatchObject([{ answer: "broken", message: "out of memory" }]);
});
