import type { ChannelQuantity, ChannelRole } from "../../shared/record/channel-role";
import { findUnit, type Unit } from "../../shared/units/unit-table";
import type { ClockReading, SettledClock } from "./clock/clock-reading";
import type { ColumnReading, ColumnText, FileContext } from "./columns/column-reading";
import type { ImportChoices } from "./import-log";

const WORDS: readonly (readonly [RegExp, ChannelRole])[] = [
  [/press|druck|\bpsi|\bbar\b|kpa/i, "pressure"],
  [/flow|durchfluss|gpm|l\/min/i, "flow"],
  [/speed|drehzahl|freq|hz\b|rpm/i, "speed"],
  [/current|strom|amp/i, "current"],
  [/power|leistung|kw/i, "power"],
  [/running|pump on|status/i, "running"],
  [/temp/i, "temperature"],
  [/level/i, "level"],
  [/total|volume$/i, "volume"],
];

/** The plainest case only, until the columns' own readers stand. */
export function readColumns(columns: readonly ColumnText[], _context: FileContext, choices: ImportChoices): readonly ColumnReading[] {
  return columns.map(({ heading, unitsCell }) => {
    const chosen = choices.columns.find((choice) => choice.heading === heading);
    const role = chosen?.role ?? WORDS.find(([pattern]) => pattern.test(heading))?.[1] ?? "other";
    const text = chosen?.unit ?? unitsCell ?? /[([]\s*([^)\]]+)\s*[)\]]/.exec(heading)?.[1] ?? "";
    const unit = findUnit(text);
    return {
      role,
      position: null,
      unit: unit === null ? null : text,
      unitOptions: [],
      quantity: quantityOf(unit),
      factor: unit?.factor ?? 1,
      offset: unit?.offset ?? 0,
      raw: null,
      words: new Map([
        ["on", 1],
        ["off", 0],
      ]),
      sentinels: [],
      counter: null,
      onChange: false,
      certainty: 0.5,
      reason: "by its heading",
      questions: [],
    };
  });
}

const quantityOf = (unit: Unit | null): ChannelQuantity =>
  unit === null ? "none" : unit.quantity === "pressure" ? "gaugePressure" : unit.quantity;

const ISO = /^(\d{4})-(\d\d)-(\d\d)[T ](\d\d):(\d\d)(?::(\d\d(?:[.,]\d+)?))?Z?$/;

export function readClock(columns: readonly ColumnText[], _context: FileContext, _choices: ImportChoices): ClockReading | null {
  const filled = (column: ColumnText) => column.sample.filter((cell) => cell !== "");
  const iso = columns.find((column) => filled(column).length > 0 && filled(column).every((cell) => ISO.test(cell)));
  const unix = columns.find((column) => filled(column).length > 0 && filled(column).every((cell) => /^1\d{9}(?:\.\d+)?$/.test(cell)));
  const elapsed = columns.find((column) => /time|elapsed|seconds/i.test(column.heading));
  const column = iso ?? unix ?? elapsed;
  if (column === undefined) return null;
  return {
    columns: [column.index],
    kind: column === iso ? "civil" : column === unix ? "unix" : "elapsed",
    description: column === iso ? "ISO 8601" : column === unix ? "Unix seconds" : "elapsed seconds",
    parse: column === iso ? parseIso : ([cell]) => (cell === "" ? Number.NaN : Number(cell)),
    patterns: [column === iso ? "YYYY-MM-DD hh:mm:ss.f" : "#"],
    unitSeconds: 1,
    start: null,
    interval: null,
    zone: null,
    rollsOverMidnight: false,
    certainty: 1,
    questions: [],
    notes: [],
  };
}

function parseIso([cell]: readonly string[]): number {
  const match = ISO.exec(cell);
  if (match === null) return Number.NaN;
  const [, year, month, day, hour, minute, second] = match;
  return Date.UTC(+year, +month - 1, +day, +hour, +minute) / 1000 + Number((second ?? "0").replace(",", "."));
}

export function settleClock(raw: Float64Array, reading: ClockReading, _choices: ImportChoices): SettledClock {
  const rows = Uint32Array.from(raw, (_, i) => i);
  let rising = true;
  for (let i = 1; i < raw.length && rising; i++) rising = raw[i] > raw[i - 1];
  if (!rising) rows.sort((a, b) => raw[a] - raw[b] || a - b);
  const kept = rising ? rows : rows.filter((row, i) => i === 0 || raw[row] > raw[rows[i - 1]]);
  const epoch = raw[kept[0]] ?? 0;
  return {
    clock: reading.kind === "elapsed" ? { kind: "elapsed" } : { kind: "absolute", epoch, zone: null },
    times: Float64Array.from(kept, (row) => raw[row] - epoch),
    order: rising ? null : kept,
    rejected: [],
    duplicates: raw.length - kept.length,
    reordered: 0,
    faults: [],
    questions: [],
    notes: [],
  };
}
