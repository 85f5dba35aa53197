import { importLog } from "../../analysis/import/import-log";
import type { Stations } from "./handle";

/** The analysis as the worker calls it. Reading is at hand from the start, the rest comes while the first file is read, the report when one is asked for. */
export const stations: Stations = {
  importLog,
  workingOut: () => import("./working-out"),
  reporting: () => import("../report/report-of-record"),
};
