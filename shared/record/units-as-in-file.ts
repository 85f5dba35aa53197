import { METRIC_UNITS, type UnitChoice, US_UNITS } from "../units/unit-choice";
import type { LogRecord } from "./log-record";

/** US units where the log's pressure is in psi or its flow in gallons, else metric with the log's own pressure unit. */
export function unitsAsInFile(record: LogRecord): UnitChoice {
  const unitOf = (role: "pressure" | "flow") => record.channels.find((channel) => channel.role === role)?.unitInFile?.toLowerCase() ?? "";
  const pressure = unitOf("pressure");
  if (pressure.startsWith("psi") || (pressure === "" && /gpm|gal/.test(unitOf("flow")))) return US_UNITS;
  return { ...METRIC_UNITS, pressure: pressure.includes("pa") ? "kPa" : "bar", flow: unitOf("flow").startsWith("m") ? "m³/h" : "L/min" };
}
