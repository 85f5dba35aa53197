import type { Stations } from "./handle";

/** The analysis as the worker calls it: reading comes with the first file, the rest while it is read, the report when one is asked for. */
export const stations: Stations = {
  fileReading: () => import("./file-reading"),
  workingOut: () => import("./working-out"),
  reporting: () => import("../report/report-of-record"),
  modelling: () => import("./modelling"),
};
