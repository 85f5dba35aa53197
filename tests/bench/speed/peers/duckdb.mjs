import { DuckDBInstance } from "@duckdb/node-api";
import { serve, total } from "./live.mjs";

const connection = await (await DuckDBInstance.create(":memory:", { threads: process.env.PEER_THREADS ?? "2" })).connect();

serve(async (path, awkward) => {
  const options = awkward
    ? ", delim=';', decimal_separator=',', timestampformat='%d/%m/%Y %H:%M:%S', columns={'t':'TIMESTAMP','p':'DOUBLE','f':'DOUBLE','s':'DOUBLE'}, header=true"
    : "";
  const result = await connection.run(`select * from read_csv('${path}'${options})`);
  const columns = [0, 1, 2, 3].map(() => new Float64Array(1 << 20));
  let rows = 0;
  for (let chunk = await result.fetchChunk(); chunk !== null && chunk.rowCount > 0; chunk = await result.fetchChunk()) {
    for (let c = 0; c < 4; c++) {
      const vector = chunk.getColumnVector(c);
      // The vector's own typed array: microseconds for the stamps, doubles for the rest.
      const items = vector.items;
      if (c === 0) for (let i = 0; i < chunk.rowCount; i++) columns[0][rows + i] = Number(items[i]) / 1e6;
      else columns[c].set(items.subarray(0, chunk.rowCount), rows);
    }
    rows += chunk.rowCount;
  }
  return { rows, sums: [columns[0][0], ...columns.slice(1).map((column) => total(column.subarray(0, rows)))] };
});
