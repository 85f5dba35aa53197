import { findUnit, toSI, type Unit } from "./unit-table";

/** A number and its unit as a person writes them: "52 psi", "1.25 in", "−3 °C", "1,5 bar", "2 min". Null where the text is not that. */
export type WrittenQuantity = { readonly number: number; readonly unit: string };

const NUMBER_AND_UNIT = /^\s*([+\-−]?(?:\d+(?:[.,]\d+)?|[.,]\d+)(?:[eE][+-]?\d+)?)\s*(.*?)\s*$/;

export function splitQuantity(text: string): WrittenQuantity | null {
  const match = NUMBER_AND_UNIT.exec(text);
  if (match === null) return null;
  const number = Number(match[1].replace("−", "-").replace(",", "."));
  return Number.isFinite(number) ? { number, unit: match[2] } : null;
}

/** Units of time, which the table leaves out: they never head a logged channel. */
const TIME_UNITS: ReadonlyMap<string, number> = new Map([
  ["ms", 1e-3],
  ["s", 1],
  ["sec", 1],
  ["second", 1],
  ["seconds", 1],
  ["min", 60],
  ["minute", 60],
  ["minutes", 60],
  ["h", 3600],
  ["hr", 3600],
  ["hour", 3600],
  ["hours", 3600],
  ["d", 86400],
  ["day", 86400],
  ["days", 86400],
]);

export type WrittenKind = "gaugePressure" | "pressureDifference" | "flow" | "volume" | "length" | "time" | "power" | "count" | "fraction";

/** Words for a head of water that stand for a pressure where a pressure is asked: "30 ft", "20 m". */
const HEAD_UNITS: ReadonlyMap<string, string> = new Map([
  ["m", "mH2O"],
  ["ft", "ftH2O"],
  ["feet", "ftH2O"],
  ["foot", "ftH2O"],
  ["metre", "mH2O"],
  ["metres", "mH2O"],
  ["meter", "mH2O"],
  ["meters", "mH2O"],
]);

/**
 * SI value of a written quantity of the kind asked for, or null where the unit is missing or of another kind.
 * A plain pressure unit is gauge; an absolute one is refused here, since site facts are read off gauges.
 */
export function readQuantity(text: string, kind: WrittenKind): { readonly value: number; readonly unit: string } | null {
  const written = splitQuantity(text);
  if (written === null) return null;
  if (kind === "count")
    return written.unit === "" || /^(?:per hour|\/h|1\/h)$/.test(written.unit) ? { value: written.number, unit: "" } : null;
  if (kind === "fraction") {
    if (written.unit !== "" && written.unit !== "%") return null;
    return { value: written.unit === "%" ? written.number / 100 : written.number, unit: "%" };
  }
  if (kind === "time") {
    const factor = TIME_UNITS.get(written.unit.toLowerCase());
    return factor === undefined ? null : { value: written.number * factor, unit: written.unit };
  }
  const isPressure = kind === "gaugePressure" || kind === "pressureDifference";
  const unit = findUnit(isPressure ? (HEAD_UNITS.get(written.unit.toLowerCase()) ?? written.unit) : written.unit);
  if (unit === null || !fits(unit, kind)) return null;
  return { value: isPressure ? written.number * unit.factor : toSI(written.number, unit), unit: written.unit };
}

function fits(unit: Unit, kind: WrittenKind): boolean {
  if (kind === "gaugePressure" || kind === "pressureDifference") return unit.quantity === "pressure" || unit.quantity === "gaugePressure";
  return unit.quantity === kind;
}
