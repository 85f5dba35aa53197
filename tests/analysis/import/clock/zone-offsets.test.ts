import { Temporal } from "temporal-polyfill";
import { describe, expect, test } from "vitest";
import { civilToUnix, zoneOffsets } from "../../../../analysis/import/clock/zone-offsets";
import { choicesOf, columnsOf, contextOf, readBack } from "../../../builders/log-columns";

const civil = (unix: number, zone: string) => {
  const at = Temporal.Instant.fromEpochMilliseconds(unix * 1000).toZonedDateTimeISO(zone);
  return Date.UTC(at.year, at.month - 1, at.day, at.hour, at.minute, at.second) / 1000;
};
const at = (text: string) => Date.parse(text) / 1000;

/** Outside check: Temporal's own zone arithmetic (temporal-polyfill), which reads the same tz database another way. */
describe("changes of a zone's offset", () => {
  test.each([
    ["Europe/London", "2023-01-01T00:00:00Z", "2025-01-01T00:00:00Z"],
    ["America/New_York", "2023-01-01T00:00:00Z", "2025-01-01T00:00:00Z"],
    ["Australia/Lord_Howe", "2023-01-01T00:00:00Z", "2025-01-01T00:00:00Z"],
    ["America/Sao_Paulo", "2016-01-01T00:00:00Z", "2020-01-01T00:00:00Z"],
    ["Africa/Casablanca", "2023-01-01T00:00:00Z", "2025-01-01T00:00:00Z"],
    ["Asia/Kolkata", "2023-01-01T00:00:00Z", "2025-01-01T00:00:00Z"],
  ])("%s", (zone, from, to) => {
    const found = zoneOffsets(zone, at(from), at(to));
    const expected: number[] = [];
    let next = Temporal.Instant.from(from).toZonedDateTimeISO(zone).getTimeZoneTransition("next");
    while (next !== null && next.epochMilliseconds < Date.parse(to)) {
      expected.push(next.epochMilliseconds / 1000);
      next = next.getTimeZoneTransition("next");
    }
    expect(found.from.slice(1)).toEqual(expected);
  });

  test.each(["Europe/London", "America/New_York", "Australia/Lord_Howe", "America/Sao_Paulo"])(
    "a log over both changes of a year comes back in %s",
    (zone) => {
      const year = zone === "America/Sao_Paulo" ? 2018 : 2024;
      const first = Date.UTC(year, 0, 5) / 1000;
      const unix = Float64Array.from({ length: 365 * 96 }, (_, i) => first + i * 900);
      const times = unix.map((t) => civil(t, zone));
      const { repeated, missing } = civilToUnix(times, zoneOffsets(zone, times[0], times[times.length - 1]));
      expect(times).toEqual(unix);
      expect(repeated).toBeGreaterThan(0);
      expect(missing).toBe(0);
    },
  );
});

const local = (unix: number, zone: string) => new Date(civil(unix, zone) * 1000).toISOString().slice(0, 19).replace("T", " ");

describe("local time with and without a named zone", () => {
  const rows = (zone: string, from: string, n = 60, step = 300) =>
    Array.from({ length: n }, (_, i) => at(from) + i * step).map((t) => [t, local(t, zone)] as const);

  test.each([
    ["Europe/Berlin", "2024-03-31T00:00:00Z"],
    ["Europe/Berlin", "2024-10-26T23:00:00Z"],
    ["America/New_York", "2024-11-03T04:30:00Z"],
  ])("%s named in the preamble: no gap, no duplicate from %s", (zone, from) => {
    const made = rows(zone, from);
    const read = readBack(
      columnsOf(
        "Time|P",
        made.map(([, text]) => `${text}|3`),
      ),
      contextOf([`Time zone: ${zone}`]),
    );
    expect(read?.instants).toEqual(made.map(([t]) => new Date(t * 1000).toISOString().replace(".000Z", "Z")));
    expect(read?.asked).toEqual([]);
    expect(read?.settled.duplicates).toBe(0);
  });

  test("a repeated hour without a zone goes on evenly and the zone is asked", () => {
    const made = rows("Europe/Berlin", "2024-10-26T23:00:00Z");
    const read = readBack(
      columnsOf(
        "Time|P",
        made.map(([, text]) => `${text}|3`),
      ),
    );
    expect(read?.settled.times).toEqual(Float64Array.from(made, (_, i) => i * 300));
    expect(read?.asked).toEqual(["time-zone"]);
    expect(read?.settled.faults.map((f) => f.kind)).toEqual(["zone-slip"]);
  });

  test("an hour without rows on another day is left a gap", () => {
    const made = [...rows("UTC", "2024-06-03T00:00:00Z", 24), ...rows("UTC", "2024-06-03T03:00:00Z", 24)];
    const read = readBack(
      columnsOf(
        "Time|P",
        made.map(([, text]) => `${text}|3`),
      ),
    );
    expect(read?.settled.times[24]).toBe(3 * 3600);
    expect(read?.asked).toEqual([]);
  });

  test.each([
    ["2024-05-01T10:00:00+02:00", [], "2024-05-01T08:00:00Z", "+02:00"],
    ["2024-05-01 10:00:00", ["UTC offset: +02:00"], "2024-05-01T08:00:00Z", "+02:00"],
    ["2024-05-01 10:00:00", ["UTC offset (min): 120"], "2024-05-01T08:00:00Z", "+02:00"],
    ["2024-05-01 10:00:00", ["Time zone offset: -5 h"], "2024-05-01T15:00:00Z", "-05:00"],
    ["2024-05-01 10:00:00", ["Timezone;GMT-5"], "2024-05-01T15:00:00Z", "-05:00"],
    ["2024-05-01 10:00:00 CEST", [], "2024-05-01T08:00:00Z", "+02:00"],
  ])("%s with preamble %j", (text, preamble, instant, zone) => {
    const read = readBack(columnsOf("Time|P", [`${text}|3`, `${text}|3`]), contextOf(preamble));
    expect([read?.instants[0], read?.reading.zone]).toEqual([instant, zone]);
  });

  test("a zone in the heading, and one in an answer that names no zone", () => {
    const cells = ["2024-05-01 10:00:00|3", "2024-05-01 10:00:10|3"];
    expect(readBack(columnsOf("Time (UTC+01:00)|P", cells))?.instants[0]).toBe("2024-05-01T09:00:00Z");
    expect(readBack(columnsOf("Zeit MESZ|P", cells))?.instants[0]).toBe("2024-05-01T08:00:00Z");
    expect(readBack(columnsOf("Time|P", cells), contextOf(), choicesOf({ "time-zone": "Europe/Lisbon" }))?.instants[0]).toBe(
      "2024-05-01T09:00:00Z",
    );
    expect(() => readBack(columnsOf("Time|P", cells), contextOf(), choicesOf({ "time-zone": "Mars/Base" }))).toThrow("unknown-answer");
  });

  test("offsets that change within the file are each taken off", () => {
    const read = readBack(columnsOf("Time|P", ["2024-10-27T02:59:00+02:00|3", "2024-10-27T02:00:00+01:00|3"]));
    expect(read?.instants).toEqual(["2024-10-27T00:59:00Z", "2024-10-27T01:00:00Z"]);
  });
});
