import { importLog } from "../../analysis/import/import-log";
import type { Stations } from "./handle";

const notBuilt = (): never => {
  throw new Error("The analysis is not built into this page yet.");
};

/** The analysis as the worker calls it. */
export const stations: Stations = { importLog, analyse: notBuilt, writeFindings: notBuilt };
