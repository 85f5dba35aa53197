import { describe, expect, test } from "vitest";
import { analyse } from "../../../analysis/analyse";
import { seededRandom } from "../../../analysis/numerics/random";
import type { LogRecord } from "../../../shared/record/log-record";
import { NO_SITE_FACTS } from "../../../shared/site/read-site-facts";
import { channel, every, recordOf } from "../../builders/record";

/**
 * Logs of a pressure that no pump holds, without any facts of a site: nothing may be blamed on a pumped system. Built from the published
 * shape of each kind of signal, not from a recording.
 */
const random = seededRandom(17);
const DAY = 86_400;
const log = (step: number, count: number, at: (t: number) => number): LogRecord =>
  recordOf([
    channel(
      "pressure",
      every(step, count),
      Array.from({ length: count }, (_, i) => at(i * step)),
    ),
  ]);

const OTHERS: Readonly<Record<string, LogRecord>> = {
  // Gauge at 25 m depth: mean 251 kPa, tide of 12.42 h and 12.00 h (M2 and S2) of 1.5 m and 0.5 m, 10 kPa a metre, waves of 8 s.
  "a tide gauge": log(
    60,
    14 * 1440,
    (t) =>
      251e3 + 15e3 * Math.sin((2 * Math.PI * t) / (12.42 * 3600)) + 5e3 * Math.sin((2 * Math.PI * t) / (12 * 3600)) + 400 * random.normal(),
  ),
  // Weather: some hPa over days, half a hPa of the half-daily tide of the air; against a fixed reference.
  "a barometer": log(
    300,
    30 * 288,
    (t) => 1200 * Math.sin((2 * Math.PI * t) / (4.3 * DAY)) + 50 * Math.sin((4 * Math.PI * t) / DAY) + 10 * random.normal(),
  ),
  // A vessel that cools over a day after a hydrostatic test: exponential, no step.
  "a vessel left to cool": log(10, 8640, (t) => 800e3 * Math.exp(-t / (3 * DAY)) + 500 * random.normal()),
  // White noise about a constant: a logger on the bench with a dead input.
  "noise about a constant": log(1, 20_000, () => 300e3 + 2e3 * random.normal()),
};

describe("no cause from a log that is none of a pumped system", () => {
  test.each(Object.entries(OTHERS))("%s", (_, record) => {
    expect(analyse(record, NO_SITE_FACTS).causes).toEqual([]);
  });
  test("temperature, level and current without a pressure", () => {
    const n = 5000;
    const values = (scale: number) =>
      Float64Array.from({ length: n }, (_, i) => scale * (1 + 0.3 * Math.sin(i / 90) + 0.05 * random.normal()));
    const record = recordOf([
      channel("temperature", every(1, n), values(290)),
      channel("level", every(1, n), values(2)),
      channel("current", every(1, n), values(8)),
    ]);
    expect(analyse(record, NO_SITE_FACTS).causes).toEqual([]);
  });
});
