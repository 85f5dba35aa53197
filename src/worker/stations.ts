import { analyse } from "../../analysis/analyse";
import { writeFindings } from "../../analysis/document/findings-document";
import { importLog } from "../../analysis/import/import-log";
import type { Stations } from "./handle";

/** The analysis as the worker calls it. */
export const stations: Stations = { importLog, analyse, writeFindings };
