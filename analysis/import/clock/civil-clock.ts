import type { ImportQuestion } from "../../../shared/record/import-question";
import type { ClockInWords } from "../../../shared/wording/clock-reading";
import type { DateOrderClue } from "../../../shared/wording/date-order";
import { weekdayOf } from "./calendar-words";
import { type ClockHints, speaksAmerican } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { clockZone } from "./clock-zone";
import type { ColumnProfile } from "./column-profile";
import { isMonthLast, mostRegular, OTHER_ORDER, orderMatters, possibleOrders } from "./date-order";
import { dateOrderQuestion } from "./date-order-question";
import { clueOfOrder, orderOfComma, rangeOf, secondsIn, writesDayFirst } from "./order-clues";
import { placeZoneOf } from "./place-zone";
import { type DateOrder, stampSeconds } from "./stamp";
import { commonPattern } from "./stamp-pattern";
import { readStamp } from "./stamp-text";
import type { TimePart } from "./time-part";
import { writeOffset } from "./zone-text";

/** A clock of stamps: one column with date and time, or a date column followed by a time column and, where there are, columns of AM and PM and of the zone. */
export function civilClock(parts: readonly TimePart[], hints: ClockHints): ClockReading {
  const profiles = parts.map((part) => part.profile);
  const cells = joinCells(parts);
  const datesOnce = profiles.length > 1 && profiles[0].column.sample.some((cell) => cell === "");
  const { orders, settledBy, usual } = settleOrder(profiles[0], cells, hints);
  const order = orders[0] ?? "dmy";
  const offset = commonOffset(cells, order);
  const place = offset === null ? placeZoneOf(cells) : null;
  const zone = place !== null && place !== "varied" ? place : zoneOf(profiles, hints, offset);
  const varied = offset === "varied";
  const parse = (row: readonly string[]): number => {
    const text = joined(parts, row);
    for (let k = 0; k < Math.max(1, orders.length); k++) {
      const stamp = readStamp(text, orders[k] ?? order);
      if (stamp === null) continue;
      if (Number.isNaN(stamp.days)) {
        if (datesOnce && row[0] === "") return stamp.seconds;
        continue;
      }
      const shift = Number.isNaN(stamp.offset) ? 0 : varied ? -stamp.offset : typeof offset === "number" ? offset - stamp.offset : 0;
      return stampSeconds(stamp) + shift + k * OTHER_ORDER;
    }
    return Number.NaN;
  };
  const patterns = varied ? null : patternsOf(parts, order, typeof offset === "number" && offset !== 0);
  return {
    columns: profiles.map((p) => p.column.index),
    kind: varied ? "unix" : "civil",
    description: [describe(profiles, patterns, order, zone)],
    parse,
    patterns,
    unitSeconds: 1,
    start: null,
    interval: null,
    zone,
    rollsOverMidnight: false,
    datesOnce,
    orders,
    ...(usual === undefined ? {} : { usualOrder: usual }),
    provenOrder: orders.length === 1 && orderMatters(profiles[0].column.sample) ? orders[0] : null,
    snap: null,
    certainty: orders.length > 1 ? 0.5 : 0.98,
    questions: [
      ...(orders.length > 1 && usual === undefined
        ? [
            dateOrderQuestion(
              orders,
              orders.map((o) => rangeOf(cells, o)),
            ),
          ]
        : []),
      ...(place === "varied" && hints.answers.zone === null ? [SEVERAL_ZONES] : []),
    ],
    notes: settledBy === null ? [] : [{ kind: "date-order", by: settledBy }],
  };
}

const SEVERAL_ZONES: ImportQuestion = {
  id: "time-zone",
  asks: { kind: "several-zones" },
  options: ["UTC"],
  assumed: "UTC",
};

/** Rows of the sample as one text each, cells joined by blanks. */
function joinCells(parts: readonly TimePart[]): readonly string[] {
  return parts[0].profile.column.sample.map((_, i) =>
    joined(
      parts,
      parts.map((part) => part.profile.column.sample[i] ?? ""),
    ),
  );
}

const joined = (parts: readonly TimePart[], row: readonly string[]): string => {
  if (row.length === 1) return parts[0].asText(row[0]);
  let text = "";
  for (let k = 0; k < row.length; k++) text += k === 0 ? parts[k].asText(row[k]) : ` ${parts[k].asText(row[k])}`;
  return text.trim();
};

type SettledOrder = {
  readonly orders: readonly DateOrder[];
  readonly settledBy: DateOrderClue | null;
  readonly usual?: NonNullable<ClockReading["usualOrder"]>;
};

/** The orders that the sample leaves open, the likeliest first, and what settled it. */
function settleOrder(profile: ColumnProfile, cells: readonly string[], hints: ClockHints): SettledOrder {
  const possible = ofNamedDays(profile.column.sample, possibleOrders(profile.column.sample));
  if (hints.answers.order !== null) return { orders: [hints.answers.order], settledBy: null };
  const told = hints.told.order === "ydm" && cells.every((cell) => cell === "" || !Number.isNaN(secondsIn(cell, "ydm")));
  if (told || isMonthLast(cells) || possible[0] === "ydm") return { orders: ["ydm"], settledBy: { kind: "all-exist" } };
  if (possible.length <= 1) return { orders: possible, settledBy: null };
  // "25.02.17" may have the year first; never the month
  const dotted = isShortDotted(profile) && hints.told.order === null;
  const orders = dotted ? possible.filter((order) => order !== "mdy") : possible;
  // where the rows do not show it, the language of the file does
  const saysDayFirst = writesDayFirst(hints) || (dotted && hints.context.decimal === ",");
  const isDayFirst = orders.includes("dmy") && !orders.includes("mdy") && saysDayFirst;
  if (isDayFirst) {
    const others = orders.filter((order) => order !== "dmy");
    return { orders: ["dmy", ...others], settledBy: null, usual: { order: "dmy", by: { kind: dotted ? "dots" : "language" } } };
  }
  return settleAmong(profile, cells, orders, hints);
}

/** The orders under which every date is the day of the week that stands before it: "Mon 05/06/2023" is no sixth of May. */
function ofNamedDays(sample: readonly string[], possible: readonly DateOrder[]): readonly DateOrder[] {
  if (possible.length < 2) return possible;
  const fits = possible.filter((order) =>
    sample.every((cell) => {
      const day = weekdayOf(cell);
      // 1970-01-01 was a Thursday
      return day === null || (((Math.floor(secondsIn(cell, order) / 86400) + 3) % 7) + 7) % 7 === day;
    }),
  );
  return fits.length === 0 ? possible : fits;
}

function settleAmong(profile: ColumnProfile, cells: readonly string[], possible: readonly DateOrder[], hints: ClockHints): SettledOrder {
  if (possible.length <= 1) return { orders: possible, settledBy: null };
  const clue = clueOfOrder(profile, cells, possible, hints);
  if (clue !== null) return { orders: [clue.order], settledBy: clue.by };
  const readings = possible.map((order) => Float64Array.from(cells, (cell) => secondsIn(cell, order)));
  const regular = mostRegular(readings);
  const comma = orderOfComma(cells, possible, hints);
  const first = regular === null ? (comma?.order ?? likeliest(possible, cells, hints)) : possible[regular];
  return { orders: [first, ...possible.filter((o) => o !== first)], settledBy: null, ...(comma === null ? {} : { usual: comma }) };
}

const isShortDotted = ({ column }: ColumnProfile) => /^\d{1,2}\.\d{1,2}\.\d{2}(?!\d)/.test(column.sample.find((cell) => cell !== "") ?? "");

/** Without a clue: month first where the file speaks American units or halves of the day, else day first. Common practice, no source. */
function likeliest(possible: readonly DateOrder[], cells: readonly string[], hints: ClockHints): DateOrder {
  const american = /[ap]\.?m\.?\s*(?:[ECMP][SD]T)?$/i.test(cells[0] ?? "") || speaksAmerican(hints);
  const wish: DateOrder = american ? "mdy" : "dmy";
  return possible.includes(wish) ? wish : possible[0];
}

/** The offset that all stamps carry, "varied" where they differ, null where they carry none. */
function commonOffset(cells: readonly string[], order: DateOrder): number | "varied" | null {
  let offset: number | null = null;
  for (const cell of cells) {
    const stamp = readStamp(cell, order);
    if (stamp === null || Number.isNaN(stamp.offset)) continue;
    if (offset !== null && offset !== stamp.offset) return "varied";
    offset = stamp.offset;
  }
  return offset;
}

function zoneOf(profiles: readonly ColumnProfile[], hints: ClockHints, offset: number | "varied" | null): string | null {
  if (offset === "varied") return null;
  return offset === null ? clockZone(hints, profiles) : writeOffset(offset);
}

function patternsOf(parts: readonly TimePart[], order: DateOrder, hasOffset: boolean): readonly string[] | null {
  const found = parts.map((part) => (part.plain ? commonPattern(part.profile.column.sample, order) : null));
  return hasOffset || found.some((pattern) => pattern === null) ? null : found.map((pattern) => pattern ?? "");
}

function describe(
  profiles: readonly ColumnProfile[],
  patterns: readonly string[] | null,
  order: DateOrder,
  zone: string | null,
): ClockInWords {
  const columns = profiles.map(({ column: { heading, index } }, k) => ({
    heading,
    index,
    form: patterns === null ? { order } : { letters: patterns[k].replace("MM", "mm").replace(".f", "").replace(",f", "").toLowerCase() },
  }));
  return { kind: "stamps", columns, zone };
}
