import type { ClockLedger } from "./clock-ledger";
import type { ClockReading } from "./clock-reading";
import { mostRegular, OTHER_ORDER, reorder } from "./date-order";
import { dateOrderQuestion } from "./date-order-question";
import type { DateOrder } from "./stamp";

/**
 * With all rows read, settles in place an order of day and month that the sample left open: by a date that exists in one order only, else by
 * which reading gives a regular clock. What stays open is asked. @returns the order that the file settles, null where it does not
 */
export function settleDateOrder(times: Float64Array, reading: ClockReading, ledger: ClockLedger): DateOrder | null {
  const { orders } = reading;
  if (orders.length < 2) return reading.provenOrder ?? null;
  const readings = orders.map((_, k) => readAs(times, orders, k));
  const unread = readings.map(countUnread);
  const least = unread.reduce((a, b) => Math.min(b, a));
  const possible = orders.flatMap((_, k) => (unread[k] === least ? [k] : []));
  const regular = possible.length === 1 ? 0 : mostRegular(possible.map((k) => readings[k]));
  const chosen = possible[regular ?? 0];
  for (let row = 0; row < times.length; row++) {
    if (Number.isNaN(readings[chosen][row]) && !Number.isNaN(times[row]))
      ledger.rejected.push({ row, why: { kind: "no-such-date", order: orders[chosen] } });
  }
  times.set(readings[chosen]);
  withoutQuestion(ledger);
  if (regular !== null) {
    const clue = possible.length === 1 ? "day-above-12" : "even-clock";
    ledger.notes.push({ kind: "date-order", by: { kind: clue, order: orders[chosen] } });
    return orders[chosen];
  }
  const { usualOrder: usual } = reading;
  if (usual !== undefined && possible.some((k) => orders[k] === usual.order)) {
    times.set(readings[orders.indexOf(usual.order)]);
    ledger.notes.push({ kind: "date-order", by: usual.by });
    return usual.order;
  }
  const open = possible.map((k) => orders[k]);
  ledger.questions.unshift(
    dateOrderQuestion(
      open,
      possible.map((k) => rangeOf(readings[k])),
    ),
  );
  return null;
}

function withoutQuestion(ledger: ClockLedger): void {
  const at = ledger.questions.findIndex((question) => question.id === "date-order");
  if (at >= 0) ledger.questions.splice(at, 1);
}

const DAY = 86_400;

/** The rows under the k-th order; NaN where their date does not exist in it. */
function readAs(times: Float64Array, orders: readonly DateOrder[], k: number): Float64Array {
  const read = new Float64Array(times.length);
  // a log has few days: the day is turned once, the rest is copied
  let [dayBegins, turned] = [Number.NaN, Number.NaN];
  for (let i = 0; i < times.length; i++) {
    const t = times[i];
    if (!(t >= dayBegins && t < dayBegins + DAY)) {
      const by = t > OTHER_ORDER / 2 ? Math.round(t / OTHER_ORDER) : 0;
      const day = Math.floor((t - by * OTHER_ORDER) / DAY) * DAY;
      dayBegins = day + by * OTHER_ORDER;
      turned = by === k ? day : Number.isNaN(t) ? Number.NaN : reorder(day, orders[by], orders[k]);
      // a stamp that only the other order reads stays unread in this one
      if (by > k) turned = Number.NaN;
    }
    read[i] = turned + (t - dayBegins);
  }
  return read;
}

function countUnread(times: Float64Array): number {
  let unread = 0;
  for (let i = 0; i < times.length; i++) if (Number.isNaN(times[i])) unread++;
  return unread;
}

function rangeOf(times: Float64Array): readonly [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const t of times) {
    if (t < low) low = t;
    if (t > high) high = t;
  }
  return [low, high];
}
