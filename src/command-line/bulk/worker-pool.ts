import { fileURLToPath } from "node:url";
import { isMainThread, parentPort, Worker, workerData } from "node:worker_threads";
import { workerEnded } from "../../../shared/wording/findings-row";
import { type Job, type JobDone, runJob } from "./job";

const ROLE = "evenhead-bulk";

/** This module is also the worker's own: started as one, it takes jobs and answers each. */
if (!isMainThread && workerData === ROLE) {
  parentPort?.on("message", (job: Job) => void runJob(job).then((done) => parentPort?.postMessage(done)));
}

/**
 * Runs jobs on so many workers, each taking the next when it is free. A worker that dies takes only its job with it.
 * @returns one answer per job, in no order; `onDone` sees each as it comes
 */
export async function runOnWorkers(jobs: readonly Job[], workers: number, onDone: (done: JobDone) => void): Promise<void> {
  const queue = [...jobs];
  await Promise.all(Array.from({ length: Math.min(workers, jobs.length) }, () => serveQueue(queue, onDone)));
}

async function serveQueue(queue: Job[], onDone: (done: JobDone) => void): Promise<void> {
  let worker: Worker | null = null;
  for (let job = queue.shift(); job !== undefined; job = queue.shift()) {
    worker ??= new Worker(fileURLToPath(import.meta.url), { workerData: ROLE });
    const done = await answerOf(worker, job);
    if (done.isLost) worker = null;
    onDone(done);
  }
  await worker?.terminate();
}

function answerOf(worker: Worker, job: Job): Promise<JobDone> {
  return new Promise((resolve) => {
    const finish = (done: JobDone) => {
      worker.off("message", finish).off("error", fail).off("exit", leave);
      resolve(done);
    };
    const lose = (why: string) => finish({ name: job.log.name, kept: false, error: why, isLost: true });
    const fail = (error: Error) => lose(error.message);
    const leave = (code: number) => lose(workerEnded(code));
    worker.on("message", finish).on("error", fail).on("exit", leave).postMessage(job);
  });
}
