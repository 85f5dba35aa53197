import { expect, test } from "vitest";
import { importLog } from "../../../../analysis/import/import-log";
import { seededRandom } from "../../../../analysis/numerics/random";
import { logFile } from "../../../builders/log-file";

/** Rounding half away from zero, by which a number written with fewer digits lies within half of its last digit (IEEE 754-2019, 4.3). Invented pressures. */
const stamp = (s: number) => new Date(Date.UTC(2024, 4, 1) + s * 5000).toISOString().slice(0, 19).replace("T", " ");
const random = seededRandom(11);
const bar = Array.from({ length: 600 }, (_, i) => 3.5 + 0.6 * Math.sin(i / 9) + 0.02 * random.normal());
const log = (from: number, to: number, digits: number, off = (_: number) => 0) =>
  `Time,Pressure (bar)\n${bar
    .slice(from, to)
    .map((value, i) => `${stamp(from + i)},${(value + off(from + i)).toFixed(digits)}`)
    .join("\n")}\n`;
const channelsOf = async (...texts: string[]) => {
  const { record } = await importLog(texts.map((text, i) => logFile(text, `${i}.csv`)));
  return [record.channels.length, record.rows.accepted, record.rows.duplicate];
};

test("an overlap written again with fewer digits is the same channel, in either order", async () => {
  expect(await channelsOf(log(0, 300, 3), log(250, 600, 1))).toEqual([1, 600, 50]);
  expect(await channelsOf(log(0, 300, 1), log(250, 600, 3))).toEqual([1, 600, 50]);
});

test("a second sensor beside the first stays one, however coarse", async () => {
  const [beside, noisy] = [() => 0.03, () => 0.02 * random.normal()];
  expect((await channelsOf(log(0, 300, 3), log(100, 600, 1, beside)))[0]).toBe(2);
  expect((await channelsOf(log(0, 300, 3), log(100, 600, 1, noisy)))[0]).toBe(2);
  expect((await channelsOf(log(0, 300, 3), log(100, 600, 3, noisy)))[0]).toBe(2);
});

test("coarse values that hardly change settle nothing", async () => {
  const steady = Array.from({ length: 300 }, (_, i) => `${stamp(i)},${(3.2 + 0.01 * random.normal()).toFixed(3)}`).join("\n");
  const coarse = Array.from({ length: 300 }, (_, i) => `${stamp(i)},${i === 299 ? 4 : 3}`).join("\n");
  expect((await channelsOf(`Time,Pressure (bar)\n${steady}\n`, `Time,Pressure (bar)\n${coarse}\n`))[0]).toBe(2);
});
