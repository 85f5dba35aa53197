import { expect, test } from "vitest";
import { cycleProfile, dayProfile } from "../../../analysis/comparison/pressure-profile";
import type { Clock } from "../../../shared/record/clock";
import { seconds } from "../../../shared/units/quantity";
import { channel, every } from "../../builders/record";

const DAY = 86400;

test("days lie over one another by the site's clock, over a change to summer time", () => {
  // Lisbon went from +00:00 to +01:00 on 29 March 2026, 01:00 UTC (IANA time zone database). Pressure is the hour of the site's clock.
  const epoch = Date.UTC(2026, 2, 28) / 1000;
  const clock: Clock = { kind: "absolute", epoch, zone: "Europe/Lisbon" };
  const change = Date.UTC(2026, 2, 29, 1) / 1000;
  const hour = (unix: number) => Math.floor(((unix + (unix >= change ? 3600 : 0)) % DAY) / 3600);
  const values = Float64Array.from({ length: 3 * 1440 }, (_, i) => 1e5 + hour(epoch + i * 60));
  const profile = dayProfile(channel("pressure", every(60, values.length), values), clock, 3 * DAY)!;
  expect(profile.count).toBe(3);
  expect(profile.middle).toEqual(Array.from({ length: 96 }, (_, quarter) => 1e5 + Math.floor(quarter / 4)));
  expect(profile.low).toEqual(profile.high);
});
test("a log without a clock or under a day has no day", () => {
  const pressure = channel("pressure", every(60, 100), new Float64Array(100));
  expect(dayProfile(pressure, { kind: "elapsed" }, 3 * DAY)).toBeNull();
  expect(dayProfile(pressure, { kind: "absolute", epoch: 0, zone: null }, 6000)).toBeNull();
});
test("cycles lie over one another from the start of the pump on", () => {
  const runs = Array.from({ length: 20 }, (_, i) => ({ from: seconds(50 + i * 100), to: seconds(80 + i * 100), complete: true }));
  const values = Float64Array.from({ length: 2000 }, (_, t) => ((t + 50) % 100) * 1000); // 0 at each start, then rising
  const profile = cycleProfile(channel("pressure", every(1, 2000), values), runs)!;
  const at = (s: number) => profile.middle[Math.floor((s - profile.fromS) / profile.stepS)]!;
  expect(profile.count).toBe(20);
  expect(Math.abs(at(30) - 30_000)).toBeLessThan(2000);
  expect(Math.abs(at(-10) - 90_000)).toBeLessThan(2000);
});
