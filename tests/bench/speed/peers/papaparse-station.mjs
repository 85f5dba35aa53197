import { createReadStream } from "node:fs";
import Papa from "papaparse";
import { serve } from "./live.mjs";

const stampOf = (text) =>
  Date.UTC(+text.slice(6, 10), +text.slice(3, 5) - 1, +text.slice(0, 2), +text.slice(11, 13), +text.slice(14, 16), +text.slice(17, 19)) /
  1000;

/** Lines above the table: three, and the headings. */
const ABOVE = 4;

/** The station's log streamed: cells in quotes, blanks and words as missing. */
serve(
  (path) =>
    new Promise((resolve) => {
      const columns = [0, 1, 2, 3].map(() => new Float64Array(1 << 20));
      const sums = [0, 0, 0];
      let line = 0;
      let rows = 0;
      Papa.parse(createReadStream(path, { encoding: "utf8", highWaterMark: 1 << 20 }), {
        delimiter: ";",
        newline: "\n",
        step: ({ data }) => {
          if (line++ < ABOVE || data[0] === "") return;
          columns[0][rows] = stampOf(data[0]);
          for (let c = 1; c < 4; c++) {
            const cell = data[c] ?? "";
            const value = cell === "" ? Number.NaN : Number(cell.replace(",", "."));
            columns[c][rows] = value;
            if (!Number.isNaN(value)) sums[c - 1] += value;
          }
          rows++;
        },
        complete: () => resolve({ rows, sums: [columns[0][0], ...sums] }),
      });
    }),
);
