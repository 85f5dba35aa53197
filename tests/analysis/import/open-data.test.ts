import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { importLog } from "../../../analysis/import/import-log";
import { timeAt } from "../../../shared/record/sampling";
import { logFile } from "../../builders/log-file";

/** Tables published as CSV and in their publisher's own parsed form; sources and licences in `tests/open-data/README.md`. */
const FOLDER = join(import.meta.dirname, "..", "..", "open-data");
type Row = Readonly<Record<string, number | string>>;

async function both(name: string) {
  const bytes = readFileSync(join(FOLDER, `${name}.csv`));
  const { record } = await importLog([logFile(Uint8Array.from(bytes), `${name}.csv`)]);
  const parsed = JSON.parse(readFileSync(join(FOLDER, `${name}.json`), "utf8")) as readonly Row[];
  return { record, parsed };
}

test.each([
  ["births-2000", (row: Row) => Date.UTC(Number(row.year), Number(row.month) - 1, Number(row.date_of_month))],
  ["army-deaths", (row: Row) => Date.parse(String(row.date))],
])("%s is read as its publisher's own parser read it", async (name, instantOf) => {
  const { record, parsed } = await both(name);
  expect(record.rows).toEqual({ accepted: parsed.length, rejected: 0, duplicate: 0, reordered: 0 });
  const [{ sampling }] = record.origins;
  const epoch = record.clock.kind === "absolute" ? record.clock.epoch : Number.NaN;
  expect(parsed.map((_, i) => Math.round((epoch + timeAt(sampling, i)) * 1000))).toEqual(parsed.map(instantOf));
  expect(record.channels.length).toBeGreaterThan(0);
  for (const channel of record.channels)
    expect(Array.from(channel.values), channel.heading).toEqual(parsed.map((row) => row[channel.heading]));
});
