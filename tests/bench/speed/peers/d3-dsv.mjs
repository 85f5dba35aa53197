import { readFileSync } from "node:fs";
import { dsvFormat } from "d3-dsv";
import { serve, total } from "./live.mjs";

const stampOf = (text, awkward) =>
  (awkward
    ? Date.UTC(+text.slice(6, 10), +text.slice(3, 5) - 1, +text.slice(0, 2), +text.slice(11, 13), +text.slice(14, 16), +text.slice(17, 19))
    : Date.parse(`${text}Z`)) / 1000;

serve((path, awkward) => {
  const all = dsvFormat(awkward ? ";" : ",").parseRows(readFileSync(path, "utf8"));
  const rows = all.length - 1;
  const columns = [0, 1, 2, 3].map(() => new Float64Array(rows));
  for (let i = 0; i < rows; i++) {
    columns[0][i] = stampOf(all[i + 1][0], awkward);
    for (let c = 1; c < 4; c++) columns[c][i] = Number(awkward ? all[i + 1][c].replace(",", ".") : all[i + 1][c]);
  }
  return { rows, sums: [columns[0][0], ...columns.slice(1).map(total)] };
});
