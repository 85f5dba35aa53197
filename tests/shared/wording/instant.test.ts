import { expect, test } from "vitest";
import type { Clock } from "../../../shared/record/clock";
import { seconds } from "../../../shared/units/quantity";
import { US_UNITS } from "../../../shared/units/unit-choice";
import { sayClockZone, sayDays, sayElapsed, sayInstant, sayRecordTime, saySpan } from "../../../shared/wording/instant";

const epoch = Date.UTC(2024, 4, 3, 8, 0, 12) / 1000;
const logger: Clock = { kind: "absolute", epoch, zone: null };

test("a clock without a zone is shown as the logger wrote it, and said to be that", () => {
  expect(sayInstant(logger, 0, null)).toBe("3 May 2024, 08:00:12");
  expect(sayClockZone(logger)).toBe("local time of the logger");
});
test("a zone by name follows its summer time", () => {
  expect(sayInstant({ ...logger, zone: "Europe/Lisbon" }, 0, null)).toBe("3 May 2024, 09:00:12"); // WEST is UTC+1 from 31 March 2024
});
test("a zone by offset is applied", () => {
  expect(sayInstant({ ...logger, zone: "+05:30" }, 0, null)).toBe("3 May 2024, 13:30:12");
  expect(sayInstant({ ...logger, zone: "-08:00" }, 0, null)).toBe("3 May 2024, 00:00:12");
});
test("a stretch within a day says the day once", () => {
  expect(saySpan(logger, { from: seconds(0), to: seconds(228) }, null)).toBe("3 May 2024, 08:00:12 to 08:04:00");
  expect(saySpan(logger, { from: seconds(0), to: seconds(86400) }, null)).toBe("3 May 2024, 08:00:12 to 4 May 2024, 08:00:12");
});
test("a record is told by its days, or by the times of its one day, with its length and its clock", () => {
  const units = { ...US_UNITS, locale: null };
  const plain = (clock: Clock, duration: number) => sayRecordTime(clock, duration, units).replaceAll(/[\u2009\u202f]/g, " ");
  expect(plain(logger, 3 * 86400)).toBe("3 – 6 May 2024, 3.0 days, local time of the logger");
  expect(plain(logger, 7200)).toBe("3 May 2024, 08:00:12 to 10:00:12, 2.0 h, local time of the logger");
  expect(plain({ kind: "elapsed" }, 7200)).toBe("2.0 h, time since the first row");
});
test("elapsed time counts days, hours, minutes and seconds", () => {
  expect(sayElapsed(184)).toBe("00:03:04");
  expect(sayElapsed(86400 + 7384)).toBe("1\u202fd 02:03:04");
  expect(saySpan({ kind: "elapsed" }, { from: seconds(0), to: seconds(60) }, null)).toBe("00:00:00 to 00:01:00");
});
test("a customer is told whole minutes, hours or days, one of them in the singular", () => {
  const elapsed = [10, 89, 91, 2000, 5000, 5400, 7200, 3 * 86_400].map((duration) => sayDays({ kind: "elapsed" }, duration, null));
  const minutes = [1, 1, 2, 33, 83].map((count) => ` for ${count} minute${count === 1 ? "" : "s"}`);
  expect(elapsed).toEqual([...minutes, " for 2 hours", " for 2 hours", " for 3 days"]);
  expect(sayDays(logger, 1800, null)).toBe(" on 3 May 2024, for 30 minutes");
  expect(sayDays(logger, 86_400 * 2, null)).toBe(" from 3 May 2024 to 5 May 2024, for 2 days");
});
