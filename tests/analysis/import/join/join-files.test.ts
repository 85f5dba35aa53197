import { describe, expect, test } from "vitest";
import { importLog, NO_CHOICES } from "../../../../analysis/import/import-log";
import { seededRandom } from "../../../../analysis/numerics/random";
import { timesOf } from "../../../../shared/record/sampling";
import { sayQuestion } from "../../../../shared/wording/import-question";
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
    const offset = record.notes.flatMap((note) => (note.kind === "clock-offset" ? [note.offset.value] : []))[0];
    expect(Math.abs(offset + shift)).toBeLessThanOrEqual(2);
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

test("bare seconds beside dates are laid at the start of the dated log, and their start is asked", async () => {
  const elapsed = `Elapsed (s),Flow (L/min)\n${Array.from({ length: 20 }, (_, i) => `${i},${4 + i / 10}`).join("\n")}\n`;
  const files = [logFile(part(0, 50), "a.csv"), logFile(elapsed, "b.csv")];
  const { record } = await importLog(files);
  expect(record.questions.map(({ id, assumed }) => [id, assumed])).toEqual([["start-time", "2024-05-01 00:00:00Z"]]);
  expect(record.clock).toMatchObject({ kind: "absolute", epoch: Date.UTC(2024, 4, 1) / 1000 });
  const told = (await importLog(files, { ...NO_CHOICES, answers: { "start-time": "2024-05-01 00:00:10" } })).record;
  const flow = told.channels.find(({ role }) => role === "flow");
  expect(told.questions).toEqual([]);
  expect(flow && timesOf(flow.sampling)[0]).toBe(10);
});

test("parts whose columns changed places are one log", async () => {
  const rows = (from: number, to: number, moved: boolean) =>
    Array.from({ length: to - from }, (_, k) => {
      const [bar, flow] = [(4 + (from + k) / 100).toFixed(2), String(from + k)];
      return `${stamp(from + k)},${moved ? `${flow},${bar}` : `${bar},${flow}`}`;
    }).join("\n");
  const first = `Time,Pressure (bar),Flow (L/min)\n${rows(0, 20, false)}\n`;
  const second = `Time,Flow (L/min),Pressure (bar)\n${rows(20, 50, true)}\n`;
  const { record } = await importLog([logFile(second, "b.csv"), logFile(first, "a.csv")]);
  expect(record.rows.accepted).toBe(50);
  expect(record.channels.map(({ heading }) => heading)).toEqual(["Pressure (bar)", "Flow (L/min)"]);
  expect(record.channels[0].values[49]).toBe(Math.fround(4.49e5));
});

test("a pressure and a flow logger are compared too: the draw pulls the pressure down", async () => {
  const draw = seededRandom(3);
  let level = 0;
  const flow = Array.from({ length: 3000 }, () => {
    if (draw.next() < 0.02) level = level === 0 ? 5 + 20 * draw.next() : 0;
    return level;
  });
  const table = (heading: string, shift: number, value: (s: number) => number) =>
    `Time,${heading}\n${flow.map((_, s) => `${stamp(s + shift)},${value(s).toFixed(3)}`).join("\n")}\n`;
  const pressure = table("Pressure (bar)", 0, (s) => 4 - 0.03 * flow[s] + 0.02 * draw.next());
  const ask = async (shift: number) =>
    (
      await importLog([
        logFile(pressure, "p.csv"),
        logFile(
          table("Flow (L/min)", shift, (s) => flow[s]),
          "q.csv",
        ),
      ])
    ).record;
  const shifted = await ask(95);
  expect(shifted.questions.map(({ id, assumed }) => [id, assumed])).toEqual([["clock", "as-stamped"]]);
  expect(sayQuestion(shifted.questions[0].asks, null).text).toContain("-95.0 s");
  expect((await ask(0)).questions).toEqual([]);
});

test("a channel that was added between two parts is missing in the first", async () => {
  const bars = (from: number) => Array.from({ length: 20 }, (_, k) => [stamp(from + k), (4 + k / 100).toFixed(2)]);
  const first = `Time,Pressure (bar)\n${bars(0)
    .map((row) => row.join(","))
    .join("\n")}\n`;
  const second = `Time,Pressure (bar),Flow (L/min)\n${bars(20)
    .map((row) => [...row, "6"].join(","))
    .join("\n")}\n`;
  const { record } = await importLog([logFile(first, "a.csv"), logFile(second, "b.csv")]);
  expect(record.rows.accepted).toBe(40);
  expect(record.channels.map(({ heading, values }) => [heading, values.length])).toEqual([
    ["Pressure (bar)", 40],
    ["Flow (L/min)", 40],
  ]);
  expect(Array.from(record.channels[1].values.slice(18, 22))).toEqual([Number.NaN, Number.NaN, Math.fround(1e-4), Math.fround(1e-4)]);
});

test("a part without headings goes on with those of the part before it", async () => {
  const whole = part(0, 100).trimEnd().split("\n");
  const files = [logFile(whole.slice(0, 60).join("\n"), "a.csv"), logFile(whole.slice(60).join("\n"), "b.csv")];
  const { record } = await importLog(files);
  expect(record.rows.accepted).toBe(100);
  expect(record.channels.map(({ heading, role }) => [heading, role])).toEqual([["Pressure (bar)", "pressure"]]);
  expect(record.questions).toEqual([]);
  expect(record.notes.map(({ kind }) => kind)).toContain("lent-headings");
});
