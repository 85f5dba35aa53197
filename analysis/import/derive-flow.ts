import type { Channel } from "../../shared/record/log-record";
import { timesOf } from "../../shared/record/sampling";
import { flowFrom } from "../../shared/wording/derived-flow";
import type { ReadingNote } from "../../shared/wording/reading-note";
import type { ColumnReading } from "./columns/column-reading";

/** A flow worked out of a counter, and the sentence about it. */
export type DerivedFlow = { readonly channel: Channel; readonly note: ReadingNote };

/**
 * Flow as difference of a totaliser or of counted pulses over the time between rows. A sample holds the mean flow since the row before; the first, and
 * those across a reset of the counter, are missing. Pulses that are not a running total but counted anew for each row are told by their falling.
 * @returns null where the volume of a count is not known
 */
export function deriveFlow(channel: Channel, reading: ColumnReading): DerivedFlow | null {
  if (reading.counter === null) return null;
  const perCount = channel.quantity === "volume" ? 1 : reading.counter.cubicMetrePerCount;
  if (perCount === null) return null;
  const times = timesOf(channel.sampling);
  const running = isRunningTotal(channel.values);
  const values = new Float32Array(channel.values.length).fill(Number.NaN);
  let before = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(channel.values[i])) continue;
    const change = running ? channel.values[i] - channel.values[before] : channel.values[i];
    if (i > 0 && change >= 0 && !Number.isNaN(change)) values[i] = (change * perCount) / (times[i] - times[before]);
    before = i;
  }
  const heading = flowFrom(channel.heading);
  const falls = running ? countFalls(channel.values) : 0;
  const said = { kind: "derived-flow", counter: channel.heading, isTotal: running, falls } as const;
  return {
    channel: { ...channel, heading, role: "flow", quantity: "flow", unitInFile: null, values, reason: [said] },
    note: said,
  };
}

function countFalls(values: Channel["values"]): number {
  let falls = 0;
  for (let i = 1; i < values.length; i++) if (values[i] < values[i - 1]) falls++;
  return falls;
}

/** Rises nearly always: a fall is a reset. */
function isRunningTotal(values: Channel["values"]): boolean {
  let falls = 0;
  let rises = 0;
  for (let i = 1; i < values.length; i++) {
    if (values[i] < values[i - 1]) falls++;
    else if (values[i] > values[i - 1]) rises++;
  }
  return falls * 20 <= rises;
}
