import { describe, expect, test } from "vitest";
import { importLog, NO_CHOICES } from "../../../../analysis/import/import-log";
import { seededRandom } from "../../../../analysis/numerics/random";
import { ImportError } from "../../../../shared/problems/import-problem";
import { timesOf } from "../../../../shared/record/sampling";
import { logFile } from "../../../builders/log-file";

const stamp = (s: number) => new Date(Date.UTC(2024, 4, 1) + s * 1000).toISOString().slice(0, 19).replace("T", " ");
const random = seededRandom(7);
/** Pressure that a draw pulls down now and then: invented, its truth known. */
const pressure = (() => {
  let level = 4;
  return Array.from({ length: 4000 }, () => {
    if (random.next() < 0.02) level = 3 + 1.5 * random.next();
    return level;
  });
})();
const part = (from: number, to: number, { heading = "Pressure (bar)", shift = 0, noise = 0, step = 1 } = {}) => {
  const rows = [];
  for (let s = from; s < to; s += step) rows.push(`${stamp(s + shift)},${(pressure[s] + noise * (random.next() - 0.5)).toFixed(4)}`);
  return `Time,${heading}\n${rows.join("\n")}\n`;
};

describe("parts of one log", () => {
  const texts = [part(0, 500), part(480, 1000), part(1200, 1500)];
  test("come out the same in any order, overlaps counted once", async () => {
    const read = async (order: number[]) => (await importLog(order.map((i) => logFile(texts[i], `${i}.csv`)))).record;
    const record = await read([0, 1, 2]);
    expect(record.rows).toEqual({ accepted: 1300, rejected: 0, duplicate: 20, reordered: 0 });
    expect(record.channels).toHaveLength(1);
    expect(Array.from(record.channels[0].values)).toEqual(
      [...pressure.slice(0, 1000), ...pressure.slice(1200, 1500)].map((p) => Math.fround(Number(p.toFixed(4)) * 1e5)),
    );
    expect(record.faults.filter(({ kind }) => kind === "gap").map(({ from, to }) => [from, to])).toEqual([[999, 1200]]);
    for (const order of [
      [2, 1, 0],
      [1, 0, 2],
    ]) {
      const other = await read(order);
      expect({ ...other, files: [] }).toEqual({ ...record, files: [] });
    }
  });

  test("whole and in two pieces they are the same record", async () => {
    const whole = (await importLog([logFile(part(0, 800))])).record;
    const pieces = (await importLog([logFile(part(300, 800), "b.csv"), logFile(part(0, 300), "a.csv")])).record;
    expect(pieces.channels[0].values).toEqual(whole.channels[0].values);
    expect(timesOf(pieces.channels[0].sampling)).toEqual(timesOf(whole.channels[0].sampling));
  });
});

describe("two loggers", () => {
  const both = (shift: number, answers = {}) =>
    importLog(
      [
        logFile(part(0, 3000, { noise: 0.02 }), "tank.csv"),
        logFile(part(100, 2900, { heading: "Discharge pressure (bar)", shift, noise: 0.05, step: 2 }), "pump.csv"),
      ],
      { ...NO_CHOICES, answers },
    );

  test("with the same time are laid over each other without a question", async () => {
    const { record } = await both(0);
    expect(record.channels.map(({ heading }) => heading)).toEqual(["Pressure (bar)", "Discharge pressure (bar)"]);
    expect(record.questions.filter(({ id }) => id === "clock")).toEqual([]);
    expect(record.notes.map(({ kind }) => kind)).toContain("clocks-agree");
  });

  test.each([37, -214, 3600])("whose clocks differ by %i s are found out, the shift is asked and not applied", async (shift) => {
    const { record } = await both(shift);
    const question = record.questions.find(({ id }) => id === "clock");
    expect(question).toMatchObject({ options: ["as-stamped", "shift"], assumed: "as-stamped" });
    const offset = record.notes.find(({ kind }) => kind === "clock-offset")?.text.match(/: ([+-][\d.]+) s/)?.[1];
    expect(Math.abs(Number(offset) + shift)).toBeLessThanOrEqual(2);
    const shifted = (await both(shift, { clock: "shift" })).record;
    expect(Math.abs(timesOf(shifted.channels[1].sampling)[0] - timesOf(shifted.channels[0].sampling)[0] - 100)).toBeLessThanOrEqual(2);
  });

  test("set alike are not taken for parts of one log", async () => {
    const { record } = await importLog([logFile(part(0, 500), "a.csv"), logFile(part(1000, 1500, { shift: -1000 }), "b.csv")]);
    expect(record.channels).toHaveLength(2);
  });

  test("that show nothing in common are left as stamped, and it is said", async () => {
    const noise = (seed: number) => {
      const draw = seededRandom(seed);
      return `Time,Pressure ${seed} (bar)\n${Array.from({ length: 600 }, (_, i) => `${stamp(i)},${(4 + draw.next()).toFixed(3)}`).join("\n")}\n`;
    };
    const { record } = await importLog([logFile(noise(1), "a.csv"), logFile(noise(2), "b.csv")]);
    expect(record.notes.map(({ kind }) => kind)).toContain("clocks-not-compared");
    expect(record.questions.filter(({ id }) => id === "clock")).toEqual([]);
  });
});

test("dates and bare seconds do not join", async () => {
  const elapsed = `Elapsed (s),Pressure (bar)\n${Array.from({ length: 20 }, (_, i) => `${i},${4 + i / 10}`).join("\n")}\n`;
  const error = await importLog([logFile(part(0, 50), "a.csv"), logFile(elapsed, "b.csv")]).catch((caught: unknown) => caught);
  expect(error instanceof ImportError ? error.problem.id : error).toBe("files-do-not-join");
});
