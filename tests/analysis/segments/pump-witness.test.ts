import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { isCannotTell } from "../../../shared/findings/segment";
import type { Channel, LogRecord } from "../../../shared/record/log-record";
import { timesOf } from "../../../shared/record/sampling";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, onChange, recordOf } from "../../builders/record";

const CYCLE = 600; // s
const CYCLES = 12;
const RUN_UP = 10; // s
const RAN = 200; // s from order to rest
const STARTS = Array.from({ length: CYCLES }, (_, k) => k * CYCLE + 100.4);

/** Speed of a drive that runs up and down in a straight line and follows a slow draw in between, share of full speed. */
function speedAt(t: number): number {
  const since = (t % CYCLE) - 100.4;
  if (since <= 0 || since >= RAN) return 0;
  return Math.min(since / RUN_UP, (RAN - since) / RUN_UP, 0.75 + 0.05 * Math.sin(since / 15));
}

const runsOf = (record: LogRecord) => {
  const { pump } = evidenceOf(record).segments;
  return isCannotTell(pump) ? [] : pump.runs;
};
const sampled = (of: (t: number) => number, step = 1) => Array.from({ length: (CYCLES * CYCLE) / step }, (_, i) => of(i * step));

/** Rows wherever the value has moved by a hundredth of full scale, looked at every second. */
function onMove(values: readonly number[], full: number): Channel {
  const rows: number[] = [];
  values.forEach((value, i) => {
    if (rows.length === 0 || Math.abs(value - values[rows[rows.length - 1]]) > 0.01 * full) rows.push(i);
  });
  return channel(
    "speed",
    onChange(rows, values.length),
    rows.map((i) => values[i]),
  );
}

const near = (found: readonly number[], truth: readonly number[], within: number) =>
  found.length === truth.length && found.every((t, k) => Math.abs(t - truth[k]) <= within);

/** Every run of the truth, begun and ended within three seconds of it. */
function expectEachRun(runs: ReturnType<typeof runsOf>) {
  expect(
    near(
      runs.map(({ from }) => from),
      STARTS,
      3,
    ),
  ).toBe(true);
  expect(
    near(
      runs.map(({ to }) => to),
      STARTS.map((t) => t + RAN),
      3,
    ),
  ).toBe(true);
}

describe("a drive's log on change, with a row for every move and one for a whole rest", () => {
  const moved = onMove(sampled(speedAt), 1);

  test("hardly a row in ten is at rest, and the rest is seen all the same", () => {
    expect(moved.values.filter((v) => v < 0.01).length).toBeLessThan(0.1 * moved.values.length);
    const runs = runsOf(recordOf([moved]));
    expectEachRun(runs);
  });
  test("a drive that never rests has no runs in it", () => {
    const busy = onMove(
      sampled((t) => 0.75 + 0.1 * Math.sin(t / 15)),
      1,
    );
    expect(timesOf(busy.sampling).length).toBeGreaterThan(100);
    expect(evidenceOf(recordOf([busy])).segments.pump).toMatchObject({ mode: "always-running" });
  });
});

// What a pump draws goes with the cube of its speed (affinity laws): 10 s of straight run-up reach half of the power at 0.75 of full speed only after 6 s.
describe("what a drive draws", () => {
  const power = (standby: number, noise: number) => {
    const chance = seededRandom(5);
    return sampled((t) => standby + 1500 * speedAt(t) ** 3 + noise * chance.normal());
  };

  test.each([
    [0, 0],
    [12, 1],
    [25, 3],
  ])("runs begin where it leaves its rest of %d W and end where it is back, noise %d W", (standby, noise) => {
    const runs = runsOf(recordOf([channel("power", every(1, CYCLES * CYCLE), power(standby, noise))]));
    expectEachRun(runs);
  });
  test.each([5, 10, 20])("a meter in steps of %d W that trembles by one or two at rest shows no run there", (step) => {
    const chance = seededRandom(8);
    const values = sampled((t) => step * Math.max(0, Math.round(3 + 0.6 * chance.normal() + (1500 * speedAt(t) ** 3) / step)));
    expect(runsOf(recordOf([channel("power", every(1, values.length), values)]))).toHaveLength(CYCLES);
  });
  test("stray readings at rest are no runs", () => {
    const values = power(12, 1);
    for (let k = 0; k < CYCLES; k++) values[k * CYCLE + 400] += 60;
    expect(runsOf(recordOf([channel("power", every(1, values.length), values)]))).toHaveLength(CYCLES);
  });
});

test("a motor at one speed through a meter damped by 4 s has stopped at the middle of the fall, not where the meter has come to rest", () => {
  let shown = 0;
  const values = sampled((t) => {
    const since = t % CYCLE;
    shown += ((since > 100 && since <= 300 ? 8 : 0.2) - shown) * (1 - Math.exp(-1 / 4));
    return shown;
  });
  const runs = runsOf(recordOf([channel("current", every(1, values.length), values)]));
  expect(runs).toHaveLength(CYCLES);
  for (const { to } of runs) expect((to % CYCLE) - 300).toBeLessThan(6);
});

test("an inrush of six times the running current, caught at some starts, is no run of its own", () => {
  const chance = seededRandom(4);
  const values = sampled((t) => {
    const since = t % CYCLE;
    if (since < 100 || since >= 300) return Math.abs(0.02 * chance.normal());
    return since === 100 && Math.floor(t / CYCLE) % 2 === 0 ? 18 : 3.1 + 0.05 * chance.normal();
  });
  const runs = runsOf(recordOf([channel("current", every(1, values.length), values)]));
  expect(runs).toHaveLength(CYCLES);
  for (const { from, to } of runs) {
    expect(Math.abs((from % CYCLE) - 100)).toBeLessThan(1);
    expect(Math.abs((to % CYCLE) - 300)).toBeLessThan(1);
  }
});

describe("starts straight from the line, seen every 0.2 s", () => {
  const sampledFinely = (of: (since: number, cycle: number) => number) =>
    Array.from({ length: (CYCLES * CYCLE) / 0.2 }, (_, i) => of((i * 0.2) % CYCLE, Math.floor((i * 0.2) / CYCLE)));
  const expectRuns = (values: readonly number[]) => {
    const runs = runsOf(recordOf([channel("current", every(0.2, values.length), values)]));
    expect(runs).toHaveLength(CYCLES);
    for (const { from, to } of runs) {
      expect(Math.abs((from % CYCLE) - 100)).toBeLessThan(0.3);
      expect(Math.abs((to % CYCLE) - 300)).toBeLessThan(0.3);
    }
  };
  const current = (since: number, running: number) => {
    if (since < 100 || since >= 300) return 0.02;
    return since < 100.5 ? 6 * 5 : running;
  };
  test("an inrush of half a second is no run: the run ends when the motor rests", () => {
    const chance = seededRandom(5);
    expectRuns(sampledFinely((since) => Math.abs(current(since, 5) + 0.05 * chance.normal())));
  });
  test("a motor that runs dry at two fifths of its usual current runs", () => {
    const chance = seededRandom(6);
    expectRuns(sampledFinely((since, cycle) => Math.abs(current(since, cycle % 3 === 0 && since > 150 ? 2 : 5) + 0.05 * chance.normal())));
  });
});

test("a drive that is ramped at 2.5 Hz a second has begun when it leaves rest, and its run is as long as it turned", () => {
  const full = 50;
  const values = sampled((t) => {
    const since = (t % CYCLE) - 100.4;
    return since <= 0 || since >= RAN ? 0 : Math.min(2.5 * since, 45, (RAN - since) * 20);
  }, 0.5);
  const runs = runsOf(
    recordOf([
      channel(
        "speed",
        every(0.5, values.length),
        values.map((hz) => hz / full),
      ),
    ]),
  );
  expect(runs).toHaveLength(CYCLES);
  for (const [k, { from, to }] of runs.entries()) {
    expect(Math.abs(from - STARTS[k])).toBeLessThan(1);
    expect(Math.abs(to - from - RAN)).toBeLessThan(1.5);
  }
});

test("a drive's small runs count beside its large ones: a fifth of the power stands as clear of rest", () => {
  const values = sampled((t) => {
    const large = Math.floor(t / CYCLE) % 2 === 0;
    return t % CYCLE >= 100 && t % CYCLE < 100 + (large ? 400 : 90) ? (large ? 1200 : 250) : 10 * (t % 3 === 0 ? 1 : 0);
  }, 15);
  expect(runsOf(recordOf([channel("power", every(15, values.length), values)]))).toHaveLength(CYCLES);
});

test("single readings one step above nothing are no runs", () => {
  const chance = seededRandom(9);
  const values = sampled((t) => {
    const running = t % 60 < 20 && t % CYCLE < 300 ? 1.3 : 0;
    return running > 0 ? running : chance.next() < 0.06 ? 0.05 : 0;
  }, 10);
  expect(runsOf(recordOf([channel("current", every(10, values.length), values)]))).toHaveLength(CYCLES * 5);
});
