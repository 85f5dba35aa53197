import { fileURLToPath } from "node:url";
import { isMainThread, parentPort, Worker, workerData } from "node:worker_threads";
import { type PlainPart, readPlainPart } from "../../analysis/import/body/plain-part";
import type { ImportChoices } from "../../analysis/import/import-choices";
import { openLog } from "./files";

type Order = { readonly role: "evenhead-tail"; readonly path: string; readonly from: number; readonly choices: ImportChoices };

const isOrder = (data: unknown): data is Order =>
  typeof data === "object" && data !== null && "role" in data && data.role === "evenhead-tail";

/** This module is also the worker's own: started as one, it reads the rows it was told to and hands their arrays over. */
if (!isMainThread && isOrder(workerData)) {
  const { path, from, choices } = workerData;
  const part = await openLog(path).then((file) => readPlainPart(file, from, choices));
  const buffers =
    part === null ? [] : [...part.values.map(({ buffer }) => buffer), ...(part.times instanceof Float64Array ? [part.times.buffer] : [])];
  parentPort?.postMessage(part, buffers as ArrayBuffer[]);
}

/** Reads the plain rows of a file from a place on in another thread. @throws where that thread fails */
export function readTail(path: string, from: number, choices: ImportChoices): Promise<PlainPart | null> {
  const order: Order = { role: "evenhead-tail", path, from, choices };
  return new Promise((resolve, reject) => {
    const worker = new Worker(fileURLToPath(import.meta.url), { workerData: order });
    worker
      .once("message", resolve)
      .once("error", reject)
      .once("exit", () => resolve(null));
  });
}
