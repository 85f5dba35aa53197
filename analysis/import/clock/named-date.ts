import { possibleOrders } from "./date-order";
import { readStamp } from "./stamp-text";

const YEAR_FIRST = /(?:^|\D)((?:19|20)\d{2})[-_.]?([01]\d)[-_.]?([0-3]\d)(?:\D|$)/;
const YEAR_LAST = /(?:^|\D)(\d{1,2}([-_.])\d{1,2}\2(?:19|20)\d{2})(?:\D|$)/;

/** The date in the name of a file, as YYYY-MM-DD; null where there is none or it can be read in two orders. With dots it is day.month.year. */
export function dateInName(file: string): string | null {
  const name = file.slice(Math.max(file.lastIndexOf("/"), file.lastIndexOf("\\")) + 1);
  const first = YEAR_FIRST.exec(name);
  const last = YEAR_LAST.exec(name);
  const written = first?.slice(1, 4).join("-") ?? last?.[1] ?? "";
  const text = written.replace(/_/g, "-");
  const possible = text === "" ? [] : possibleOrders([text]);
  const order = text.includes(".") && possible.includes("dmy") ? "dmy" : possible.length === 1 ? possible[0] : null;
  const days = order === null ? Number.NaN : (readStamp(text, order)?.days ?? Number.NaN);
  return Number.isNaN(days) ? null : new Date(days * 86_400_000).toISOString().slice(0, 10);
}
