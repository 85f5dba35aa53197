import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import type { Channel } from "../../../shared/record/log-record";
import { sampleCount, timeAt } from "../../../shared/record/sampling";
import { sayReadingNote } from "../../../shared/wording/reading-note";
import { onChange, plant, type Row, readRows as read, type Signals } from "../../builders/on-change-log";

const HEADINGS = ["Pressure (kPa)", "Flow (L/min)", "Pump running"];

/** What a channel holds at an instant, in SI. */
function heldAt({ sampling, values }: Channel, t: number): number {
  let last = Number.NaN;
  for (let i = 0; i < sampleCount(sampling) && timeAt(sampling, i) <= t + 1e-6; i++) last = values[i];
  return last;
}
const kinds = (notes: readonly { readonly kind: string }[]) => notes.map(({ kind }) => kind);

describe("blanks of a log on change are the value before", () => {
  for (const [name, beat] of [
    ["without a heartbeat", undefined],
    ["with a heartbeat", 60],
  ] as const) {
    test(`${name}: every channel is known to its dead band at every second, and nothing is missing`, async () => {
      const signals = plant(6000);
      const bands = [0.5, 1, 1];
      const { record } = await read(onChange(signals, bands, beat));
      expect(kinds(record.notes)).toEqual(expect.arrayContaining(["on-change", "held-blanks"]));
      expect(record.faults).toEqual([]);
      record.channels.forEach((channel, c) => {
        expect(channel.sampling.kind).toBe("on-change");
        expect(channel.values.every((value) => !Number.isNaN(value))).toBe(true);
        const toSI = [1000, 1 / 60_000, 1][c];
        for (let t = 0; t < 6000; t += 37)
          expect(Math.abs(heldAt(channel, t) / toSI - signals[c][t]), `${channel.heading} at ${t} s`).toBeLessThan(bands[c]);
      });
    });
  }
  test("a logger with a heartbeat that misses several was silent: that is told, and without one it is told that nobody can know", async () => {
    const signals = plant(9000, 0.05);
    const off = (rows: Row[]) => rows.filter(({ t }) => t < 4000 || t > 5000);
    const beating = await read(off(onChange(signals, [0.5, 1, 1], 30)));
    expect(beating.record.notes).toContainEqual({ kind: "on-change", heartbeat: 30 });
    expect(beating.record.faults.map(({ kind, from, to }) => [kind, Math.round(from / 100), Math.round(to / 100)])).toEqual([
      ["silence", 40, 50],
    ]);
    const silent = await read(off(onChange(signals, [0.5, 1, 1])));
    expect(silent.record.faults).toEqual([]);
    const note = silent.record.notes.find(({ kind }) => kind === "on-change");
    expect(note === undefined ? "" : sayReadingNote(note, null)).toContain("would look the same");
  });
  test("a contact of few changes among rows of sampled pressure", async () => {
    const [pressures, , contact] = plant(4000);
    const rows = pressures.map((p, t): Row => ({ t, cells: [p, t === 0 || contact[t] !== contact[t - 1] ? contact[t] : null] }));
    const { record } = await read(rows, ["Pressure (kPa)", "Pump running"]);
    const [pressure, pump] = record.channels;
    expect(pressure.sampling.kind).toBe("even");
    expect(pump.sampling.kind).toBe("on-change");
    for (let t = 0; t < 4000; t += 13) expect(heldAt(pump, t)).toBe(contact[t]);
    expect(kinds(record.notes)).toContain("held-blanks");
    expect(kinds(record.notes)).not.toContain("on-change");
  });
});

describe("missing values of a log by the clock stay missing", () => {
  /** Cells lost by chance, in runs of up to some length. */
  const losing = (signals: Signals, share: number, longest: number, seed = 3): Row[] => {
    const random = seededRandom(seed);
    const left = signals.map(() => 0);
    return signals[0].map((_, t) => ({
      t,
      cells: signals.map((signal, c) => {
        if (left[c] === 0 && random.next() < share) left[c] = 1 + Math.floor(random.next() * longest);
        if (left[c] === 0) return signal[t];
        left[c]--;
        return null;
      }),
    }));
  };
  const random = seededRandom(8);
  const walk: number[] = [300];
  for (let t = 1; t < 4000; t++) walk.push(walk[t - 1] + random.normal());
  const each = (write: (t: number) => number) => Array.from({ length: 4000 }, (_, t) => write(t));
  const logs: readonly (readonly [string, Signals])[] = [
    ["a plant with noise", plant(4000)],
    ["a plant without noise", plant(4000, 0)],
    ["fine noise", [each(() => 300 + random.normal()), each(() => 20 + random.normal() / 3)]],
    ["a random walk", [walk, each((t) => walk[(t * 3) % 4000])]],
    ["ramps of one slope", [each((t) => 300 + (t % 200) / 2), each((t) => 20 + (t % 300) / 10)]],
    ["ramps of two slopes", [each((t) => 300 + (t % 200 < 50 ? t % 200 : 50 - ((t % 200) - 50) / 3)), each((t) => 20 + (t % 70))]],
    ["a wave", [each((t) => 300 + 40 * Math.sin(t / 30)), each((t) => 20 + 4 * Math.sin(t / 50))]],
  ];
  for (const [name, signals] of logs) {
    for (const [share, longest] of [
      [0.05, 3],
      [0.05, 40],
      [0.3, 5],
    ] as const) {
      test(`${name}, ${share} of the cells begin a blank of up to ${longest}`, async () => {
        const rows = losing(signals, share, longest);
        const { record } = await read(rows, HEADINGS.slice(0, signals.length));
        expect(kinds(record.notes)).not.toContain("held-blanks");
        expect(kinds(record.notes)).not.toContain("on-change");
      });
    }
  }
  test("a channel that is written in every tenth row is slow, not held, though it never repeats", async () => {
    const rows = each((t) => t).map((t): Row => ({ t, cells: [300 + (t % 200) / 2, t % 10 === 0 ? 20 + (t % 700) / 10 : null] }));
    const { record } = await read(rows, HEADINGS.slice(0, 2));
    expect(kinds(record.notes)).toContain("slow-channel");
    expect(kinds(record.notes)).not.toContain("held-blanks");
  });
});
