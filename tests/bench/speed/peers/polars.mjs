import { readFileSync } from "node:fs";
import pl from "nodejs-polars";
import { serve, total } from "./live.mjs";

serve((path, awkward) => {
  // This binding takes no decimal comma, so the commas are turned into points in the bytes first; that is part of its time.
  const source = awkward ? decimalPoints(readFileSync(path)) : path;
  const frame = pl.readCSV(source, { sep: awkward ? ";" : ",", tryParseDates: !awkward });
  const stamps = awkward
    ? frame.getColumn(frame.columns[0]).str.strptime(pl.Datetime("ms"), "%d/%m/%Y %H:%M:%S")
    : frame.getColumn(frame.columns[0]);
  const values = frame.columns.slice(1).map((name) => frame.getColumn(name).toTypedArray());
  return { rows: frame.height, sums: [new Date(stamps.getIndex(0)).getTime() / 1000, ...values.map(total)] };
});

function decimalPoints(bytes) {
  for (let i = 0; i < bytes.length; i++) if (bytes[i] === 44) bytes[i] = 46;
  return bytes;
}
