import { expect, test } from "vitest";
import { bar, iso, rows, table, told } from "../../builders/log-rows";

/** A temperature from 4 to 24 °C with one other reading in it; what is missing and the notes on it. */
async function water(other: string) {
  const text = table(
    "Time,Pressure (bar),Water temperature (°C)",
    rows(80, 10, (d, i) => `${iso(d)},${bar(i)},${i === 33 ? other : (4 + (i % 21)).toFixed(1)}`),
  );
  const { record, asked } = await told(text);
  const missing = record.channels[1].values.filter(Number.isNaN).length;
  return { missing, asked, notes: record.notes.map(({ kind }) => kind) };
}

// -89.2 °C is the coldest air ever measured at the ground: WMO archive of weather and climate extremes, from memory
test("colder than any air is no reading and said; colder than usual is one", async () => {
  expect(await water("-127.0")).toEqual({ missing: 1, asked: [], notes: ["impossible-values"] });
  expect(await water("-18.5")).toEqual({ missing: 0, asked: [], notes: [] });
});

// one atmosphere is 1.01325 bar (ISO 2533)
test("a pressure below a perfect vacuum is no reading and said", async () => {
  const text = table(
    "Time,Pressure (bar)",
    rows(80, 10, (d, i) => `${iso(d)},${i === 33 ? "-3.2" : bar(i)}`),
  );
  const { record } = await told(text);
  expect(record.channels[0].values.filter(Number.isNaN).length).toBe(1);
  expect(record.notes.map(({ kind }) => kind)).toEqual(["impossible-values"]);
});
