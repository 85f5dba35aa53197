import { describe, expect, test } from "vitest";
import { elapsedLabel, inOneRow, instantLabel, tickStep, timeTicks, zoneOffset } from "../../../src/charts/time-axis";
import { span } from "../../builders/trace";

const utc = (...parts: [number, number, number, number, number]) => Date.UTC(...parts) / 1000;
const inLisbon = { kind: "absolute", epoch: utc(2024, 4, 14, 22, 10), zone: "Europe/Lisbon" } as const;

describe("ticks of the time axis", () => {
  test("stand on round times of the site's clock and name a new day once", () => {
    // Lisbon keeps UTC+1 in May: 22:10 UTC is 23:10 there.
    const ticks = timeTicks(span(0, 4 * 3600), inLisbon, false, 5, null);
    expect(ticks.map(({ label }) => label)).toEqual(["00:00", "01:00", "02:00", "03:00"]);
    expect(ticks.map(({ at }) => at)).toEqual([3000, 6600, 10200, 13800]);
    expect(ticks.map(({ day }) => day)).toEqual(["Wed 15 May", null, null, null]);
  });
  test("count from the beginning where time is elapsed", () => {
    expect(timeTicks(span(0, 60), { kind: "elapsed" }, false, 4, null).map(({ label }) => label)).toEqual([
      "00:00:00",
      "00:00:15",
      "00:00:30",
      "00:00:45",
      "00:01:00",
    ]);
  });
  test("count days in a row of their own where time is elapsed, and say both in one row where there is but one", () => {
    const ticks = timeTicks(span(20 * 3600, 30 * 3600), { kind: "elapsed" }, false, 4, null);
    expect(ticks.map(({ label }) => label)).toEqual(["21:00", "00:00", "03:00", "06:00"]);
    expect(ticks.map(({ day }) => day)).toEqual([null, "1 d", null, null]);
    expect(ticks.map(inOneRow)).toEqual(["21:00", "1 d", "03:00", "06:00"]);
    expect(inOneRow({ at: 0, label: "06:00", day: "Mon 2 Mar" })).toBe("Mon 2 Mar 06:00");
    expect(timeTicks(span(0, 4 * 86400), { kind: "elapsed" }, false, 5, null).map(({ label }) => label)).toEqual([
      "00:00",
      "1 d",
      "2 d",
      "3 d",
      "4 d",
    ]);
  });
  test("over years carry the year", () => {
    expect(timeTicks(span(0, 400 * 86400), inLisbon, false, 4, null)[0].label).toMatch(/^\d+ \w+ 2024$/);
  });
  test("are never more than fit, whatever the length", () => {
    for (const length of [0.3, 7, 100, 5000, 86400, 604800, 3e7, 3e9, 2.5e11]) {
      expect(timeTicks(span(0, length), inLisbon, false, 9, null).length).toBeLessThanOrEqual(10);
      expect(tickStep(length, 9)).toBeGreaterThanOrEqual(length / 9);
    }
  });
});

describe("a zone's offset", () => {
  // Dates of the change in 2024: EU Directive 2000/84/EC, last Sundays of March and October at 01:00 UTC.
  test("follows daylight saving", () => {
    expect(zoneOffset("Europe/Lisbon", utc(2024, 2, 31, 0, 59))).toBe(0);
    expect(zoneOffset("Europe/Lisbon", utc(2024, 2, 31, 1, 1))).toBe(3600);
    expect(zoneOffset("Europe/Lisbon", utc(2024, 9, 27, 1, 1))).toBe(0);
  });
  test("may be half an hour, negative, written out or unknown", () => {
    expect(zoneOffset("Asia/Kolkata", 0)).toBe(5.5 * 3600);
    expect(zoneOffset("-03:30", 0)).toBe(-3.5 * 3600);
    expect(zoneOffset("UTC", 0)).toBe(0);
    expect(zoneOffset(null, 0)).toBe(0);
  });
});

test("an instant is as fine as the samples are, and no finer than it needs", () => {
  expect(instantLabel(3000, inLisbon, false, 1, null)).toBe("Wed 15 May 00:00:00");
  expect(instantLabel(3000.26, inLisbon, false, 0.1, null)).toBe("Wed 15 May 00:00:00.3");
  expect(instantLabel(90061, inLisbon, true, 1, null)).toBe("1 d 01:01:01");
  expect(elapsedLabel(59.97, 0.1, null)).toBe("00:01:00.0");
  expect(elapsedLabel(20.5, 0.1, "de-DE")).toBe("00:00:20,5");
});
