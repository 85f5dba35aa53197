import { CHANNEL_ROLES } from "../record/channel-role";
import { sayRole } from "./channel-role";
import { DATE_ORDERS_IN_WORDS } from "./date-order";
import { sayCivilDay } from "./instant";

const OPTIONS: ReadonlyMap<string, string> = new Map([
  ...DATE_ORDERS_IN_WORDS.map(([order, words]) => [`date-order ${order}`, words] as const),
  ["decimal .", "a point stands before the decimals"],
  ["decimal ,", "a comma stands before the decimals"],
  ["column-role all", "devices, all of them meant"],
  ["reference gauge", "above the air around (gauge)"],
  ["reference absolute", "above vacuum (absolute)"],
  ["reference vacuum", "below the air around (vacuum)"],
]);

/** Question kinds whose answer a person may also write, with how to write it. */
const WRITTEN: ReadonlyMap<string, string> = new Map([
  ["range", "0..10 bar"],
  ["k-factor", "10 per L"],
  ["start-time", "2024-05-03 08:00:00"],
  ["interval", "2 s"],
  ["time-zone", "Europe/Lisbon"],
  ["unit", "psi"],
  ["sentinel", "-9999"],
]);

/** "range:Ch1" is a question of the kind "range". */
export const questionKind = (id: string): string => id.split(":", 1)[0];

/** A day, or an instant of UTC, as the options of a start have it. */
const START = /^(\d{4}-\d{2}-\d{2})(?: (\d{2}:\d{2}:\d{2})Z)?$/;

/** An option as a person reads it. */
export function sayOption(id: string, option: string, locale: string | null): string {
  const kind = questionKind(id);
  const start = kind === "start-time" && locale !== null ? START.exec(option) : null;
  if (start !== null) return `${sayCivilDay(start[1], locale)}${start[2] === undefined ? "" : ` ${start[2]} UTC`}`;
  const role = kind === "column-role" ? CHANNEL_ROLES.find((known) => known === option) : undefined;
  return role === undefined ? (OPTIONS.get(`${kind} ${option}`) ?? option) : sayRole(role);
}

/** The options of a question whose answers are the same for every file; empty where they depend on it. */
export function fixedOptions(id: string): readonly string[] {
  const kind = questionKind(id);
  if (kind === "column-role") return CHANNEL_ROLES;
  return [...OPTIONS.keys()].filter((key) => key.startsWith(`${kind} `)).map((key) => key.slice(kind.length + 1));
}

/** How another answer is written, or null where only the options can be chosen. */
export const writtenAnswerExample = (id: string): string | null => WRITTEN.get(questionKind(id)) ?? null;
