import type { Amount } from "../../shared/findings/advice";
import { found, type Seen } from "../diagnosis/observations/sight";

const DAY = 86400; // s

/** What a leak-down costs in a day, with the interval of its flow; empty where none was found. */
export function leakPerDay(seen: Seen): Amount[] {
  const leak = found(seen, "leak-down");
  if (leak === null) return [];
  const { value, low, high } = leak.flow;
  return [
    {
      id: "leak-per-day",
      quantity: "volume",
      basis: "physics",
      low: Math.max(0, low) * DAY,
      high: high * DAY,
      inputs: [{ name: "leak", quantity: "flow", value, from: "log" }],
    },
  ];
}
