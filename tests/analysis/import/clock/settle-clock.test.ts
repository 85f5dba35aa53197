import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { settleClock } from "../../../../analysis/import/clock/settle-clock";
import { NO_CHOICES } from "../../../../analysis/import/import-log";
import { choicesOf, columnsOf, contextOf, readBack } from "../../../builders/log-columns";

const two = (n: number) => String(n).padStart(2, "0");
const stamp = (unix: number) => new Date(unix * 1000).toISOString().slice(0, 19).replace("T", " ");
const T0 = Date.UTC(2024, 4, 6, 10, 0, 0) / 1000;
const log = (instants: readonly number[]) =>
  columnsOf(
    "Time|P",
    instants.map((t) => `${stamp(t)}|3`),
  );
const every = (step: number, n: number, from = T0) => Array.from({ length: n }, (_, i) => from + i * step);

describe("rows in order of time", () => {
  test("rows in order are kept as they stand", () => {
    const read = readBack(log(every(10, 50)));
    expect(read?.settled.order).toBeNull();
    expect(read?.settled.times[49]).toBe(490);
    expect(read?.settled.faults).toEqual([]);
  });

  test("newest-first files are turned round, and no row counts as out of order", () => {
    const read = readBack(log(every(10, 50).reverse()));
    expect(read?.instants[0]).toBe("2024-05-06T10:00:00Z");
    expect(read?.settled.order?.[0]).toBe(49);
    expect(read?.settled.reordered).toBe(0);
  });

  test("late rows are sorted and counted", () => {
    const times = every(10, 50);
    [times[20], times[21]] = [times[21], times[20]];
    const read = readBack(log(times));
    expect([read?.settled.reordered, read?.settled.duplicates, read?.settled.times.length]).toEqual([1, 0, 50]);
    expect(read?.settled.faults).toEqual([]);
  });

  test("of rows with one instant the first is kept and the others are counted", () => {
    const times = every(10, 50);
    times.splice(20, 0, times[20], times[20]);
    const read = readBack(log(times));
    expect([read?.settled.duplicates, read?.settled.times.length]).toEqual([2, 50]);
    expect(read?.settled.order?.slice(19, 22)).toEqual(Uint32Array.of(19, 20, 23));
  });

  test("a row without a readable time is rejected", () => {
    const columns = columnsOf("Time|P", [...every(10, 9).map((t) => `${stamp(t)}|3`), "garbage|3"]);
    expect(readBack(columns)?.settled.rejected).toEqual([{ row: 9, why: { kind: "time-not-understood" } }]);
  });

  test("any shuffle of rows comes out strictly rising, nothing lost uncounted", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 80000 }), { minLength: 5, maxLength: 200 }), (offsets) => {
        const read = readBack(log(offsets.map((o) => T0 + o)));
        const { times, duplicates, rejected } = read!.settled;
        expect(times.length + duplicates + rejected.length).toBe(offsets.length);
        for (let i = 1; i < times.length; i++) expect(times[i]).toBeGreaterThan(times[i - 1]);
      }),
      { numRuns: 300 },
    );
  });
});

describe("a clock that lost its time", () => {
  const good = every(10, 200);
  test("rows between two right stretches are placed where the sampling leaves a hole for them", () => {
    const wrong = every(10, 50, Date.UTC(2000, 0, 1) / 1000);
    const times = [...good.slice(0, 100), ...wrong, ...good.slice(150)];
    const read = readBack(log(times));
    expect(read?.settled.times).toEqual(Float64Array.from(good, (t) => t - T0));
    expect(read?.settled.faults.map((f) => f.kind)).toEqual(["clock-reset"]);
    expect(read?.asked).toEqual([]);
  });

  test("a single wild stamp is placed between its neighbours", () => {
    const times = [...good];
    times[77] = Date.UTC(2042, 6, 1) / 1000;
    expect(readBack(log(times))?.settled.times).toEqual(Float64Array.from(good, (t) => t - T0));
  });

  test("rows after a reset to the end follow on, and that is asked", () => {
    const times = [...good.slice(0, 100), ...every(10, 100, 0)];
    const read = readBack(log(times));
    expect(read?.settled.times).toEqual(Float64Array.from(good, (t) => t - T0));
    expect(read?.asked).toEqual(["clock"]);
    expect(readBack(log(times), contextOf(), choicesOf({ clock: "leave-out" }))?.settled.rejected.length).toBe(100);
  });

  test("rows before the clock was set reach up to the first right one", () => {
    const times = [...every(10, 30, Date.UTC(2001, 0, 1) / 1000), ...good];
    const read = readBack(log(times));
    expect(read?.instants[0]).toBe("2024-05-06T09:55:00Z");
    expect(read?.asked).toEqual(["clock"]);
  });

  test("rows that do not fit the hole are rejected by line", () => {
    const times = [...good.slice(0, 100), ...every(10, 90, 0), ...good.slice(110)];
    const read = readBack(log(times));
    expect(read?.settled.rejected.length).toBe(90);
    expect(read?.settled.rejected[0].row).toBe(100);
    expect(read?.settled.times.length).toBe(190);
  });

  test("never is a log of an hour made one of decades", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 198 }),
        fc.integer({ min: 1, max: 60 }),
        fc.constantFrom(1970, 1980, 2000, 2036),
        (at, n, year) => {
          const times = [...good.slice(0, at), ...every(10, n, Date.UTC(year, 0, 1) / 1000), ...good.slice(at)];
          const { times: settled } = readBack(log(times))!.settled;
          expect(settled[settled.length - 1]).toBeLessThan(86400);
        },
      ),
      { numRuns: 200 },
    );
  });

  test("a clock set back while the log ran on is a fault", () => {
    const read = readBack(log([...good.slice(0, 100), ...good.slice(60).map((t) => t + 3)]));
    expect(read?.settled.faults.map((f) => [f.kind, f.from, f.to])).toEqual([["clock-jump", 990, 1000]]);
    // every row is kept, in the order of the file
    expect(read?.settled.times).toEqual(Float64Array.from({ length: 240 }, (_, i) => 10 * i));
    expect(read?.asked).toEqual(["clock"]);
  });

  test("one set back by whole quarter hours, as zones lie apart, is a slip of the zone, also where that leads before the log's beginning", () => {
    const hours = (by: number, from: number) => {
      const times = [...every(10, from, T0), ...every(10, 1000, T0 + 10 * from - by)];
      const { reading } = readBack(log(times))!;
      return settleClock(Float64Array.from(times), reading, choicesOf({}), { alike: () => false, sections: [] });
    };
    for (const [by, from] of [
      [3600, 900],
      [1800, 900],
      [5.75 * 3600, 3000],
      [8 * 3600, 900],
    ] as const) {
      const settled = hours(by, from);
      expect(settled.faults.map((f) => [f.kind, f.from, f.to])).toEqual([["zone-slip", 10 * (from - 1), 10 * from]]);
      expect(settled.times).toEqual(Float64Array.from({ length: from + 1000 }, (_, i) => 10 * i));
    }
    expect(hours(3570, 900).faults.map((f) => f.kind)).toEqual(["clock-jump"]);
  });

  test("a stretch that is written twice with its values is a copy, one with other values is none", () => {
    const times = Float64Array.from([...good.slice(0, 100), ...good.slice(60)]);
    const { reading } = readBack(log([...times]))!;
    const rows = (alike: boolean, clock?: string) =>
      settleClock(
        times,
        reading,
        { ...NO_CHOICES, answers: clock === undefined ? {} : { clock } },
        {
          alike: () => alike,
          sections: [],
        },
      );
    expect([rows(true).duplicates, rows(true).times.length]).toEqual([40, 200]);
    expect([rows(false).duplicates, rows(false).times.length]).toEqual([0, 240]);
    const right = rows(false, "set-right");
    expect(right.clock.kind === "absolute" && right.clock.epoch).toBe(T0 - 400);
    expect(rows(false, "as-written").duplicates).toBe(40);
  });

  test("a silence of two years without the sign of a reset is left a silence", () => {
    const read = readBack(log([...every(10, 100), ...every(10, 100, T0 + 750 * 86400 + 12_345)]));
    expect([read?.settled.faults, read?.asked, read?.settled.times[199]]).toEqual([[], [], 750 * 86400 + 12_345 + 990]);
  });

  test("a factory date is one of the logger's own zone", () => {
    const cells = [...good.slice(0, 100), ...every(10, 100, Date.UTC(2023, 0, 1) / 1000)].map((t) => `${stamp(t)}|3`);
    const read = readBack(columnsOf("Time|P", cells), contextOf(["Time zone: Asia/Tokyo"]));
    expect(read?.settled.faults.map((f) => f.kind)).toEqual(["clock-reset"]);
    expect(read?.settled.times).toEqual(Float64Array.from(good, (t) => t - T0));
  });

  test("a silence of months alone is no reset", () => {
    const read = readBack(log([...every(10, 100), ...every(10, 100, T0 + 200 * 86400)]));
    expect(read?.settled.faults).toEqual([]);
    expect(read?.settled.times.length).toBe(200);
  });
});

describe("stamps cut to a coarser unit", () => {
  test("six rows a minute are spread over the minute, the first minute filled from its end", () => {
    const times = every(10, 100, T0 + 30);
    const columns = columnsOf(
      "Time|P",
      times.map((t) => `${stamp(t).slice(0, 16)}|3`),
    );
    const read = readBack(columns);
    expect(read?.instants[0]).toBe("2024-05-06T10:00:30Z");
    expect(read?.settled.times).toEqual(Float64Array.from(times, (t) => t - times[0]));
    expect(read?.settled.duplicates).toBe(0);
  });

  test("two rows a tenth of a second in elapsed time", () => {
    const read = readBack(
      columnsOf(
        "Elapsed (s)|P",
        Array.from({ length: 80 }, (_, i) => `${(Math.floor(i / 2) / 10).toFixed(1)}|3`),
      ),
    );
    expect(read?.settled.times.length).toBe(80);
    expect(read?.settled.times[79]).toBeCloseTo(3.95, 9);
  });

  test("ten rows a second", () => {
    const times = every(0.1, 100);
    const read = readBack(log(times.map((t) => Math.floor(t + 1e-6))));
    expect(read?.settled.times.at(-1)).toBeCloseTo(9.9, 6);
    expect(read?.settled.notes.map((n) => n.kind)).toEqual(["coarse-stamps"]);
  });
});

describe("the order of day and month is settled by the whole file", () => {
  const slashed = (order: "dmy" | "mdy", unix: number) => {
    const d = new Date(unix * 1000);
    const [a, b] = order === "dmy" ? [d.getUTCDate(), d.getUTCMonth() + 1] : [d.getUTCMonth() + 1, d.getUTCDate()];
    return `${two(a)}/${two(b)}/${d.getUTCFullYear()} ${stamp(unix).slice(11)}`;
  };
  for (const order of ["dmy", "mdy"] as const) {
    test(`${order}: continuity over midnight`, () => {
      const times = every(600, 300, Date.UTC(2024, 2, 4) / 1000);
      const read = readBack(
        columnsOf(
          "Time|P",
          times.map((t) => `${slashed(order, t)}|3`),
        ),
      );
      expect(read?.instants[299]).toBe(new Date(times[299] * 1000).toISOString().replace(".000Z", "Z"));
      expect(read?.asked).toEqual([]);
    });
    test(`${order}: one row a day`, () => {
      const times = every(86400, 9, Date.UTC(2024, 2, 1) / 1000);
      const read = readBack(
        columnsOf(
          "Date|Total",
          times.map((t) => `${slashed(order, t).slice(0, 10)}|3`),
        ),
      );
      expect(read?.instants[8]).toBe("2024-03-09T00:00:00Z");
      expect(read?.asked).toEqual([]);
    });
    test(`${order}: a day above 12 that only the bulk holds`, () => {
      const times = every(86400 / 4, 80, Date.UTC(2024, 2, 1) / 1000);
      const cells = times.map((t) => slashed(order, t));
      const columns = columnsOf(
        "Time|P",
        cells.map((c) => `${c}|3`),
      );
      const sample = [
        { ...columns[0], sample: cells.slice(0, 3) },
        { ...columns[1], sample: ["3", "3", "3"] },
      ];
      const read = readBack(sample)!;
      const settled = settleClock(
        Float64Array.from(cells, (c) => read.reading.parse([c])),
        read.reading,
        NO_CHOICES,
      );
      expect(read.asked).toEqual(["date-order"]);
      expect(settled.questions).toEqual([]);
      expect(settled.times).toEqual(Float64Array.from(times, (t) => t - times[0]));
    });
  }
  test("an answer decides", () => {
    const columns = columnsOf("Time|P", ["03/04/2024 10:00:00|3", "03/04/2024 10:00:10|3"]);
    expect(readBack(columns, contextOf(), choicesOf({ "date-order": "mdy" }))?.instants[0]).toBe("2024-03-04T10:00:00Z");
    expect(readBack(columns, contextOf(), choicesOf({ "date-order": "dmy" }))?.instants[0]).toBe("2024-04-03T10:00:00Z");
    expect(() => readBack(columns, contextOf(), choicesOf({ "date-order": "yes" }))).toThrow("unknown-answer");
  });
});
