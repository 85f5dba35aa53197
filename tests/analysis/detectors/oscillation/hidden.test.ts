import { describe, expect, test } from "vitest";
import { oscillation } from "../../../../analysis/detectors/oscillation";
import type { Sampling } from "../../../../shared/record/log-record";
import { seconds } from "../../../../shared/units/quantity";
import { alwaysRunning, evenSampling, evidenceOf, recordOf } from "../../../builders/known-evidence";
import { addTone, noiseOf, seededRandom } from "../../../builders/signals";

function detect(pressure: ArrayLike<number>, sampling: Sampling = evenSampling(pressure.length)) {
  const record = recordOf({ pressure }, sampling);
  return oscillation.detect(evidenceOf(record, { pump: alwaysRunning(record) }));
}
const toned = (count: number, period: number, amplitude = 3) =>
  addTone(noiseOf(count, seededRandom(4)), seededRandom(5), { period, amplitude }).map((v) => 4e5 + 8000 * v);
const episodes = (outcome: ReturnType<typeof detect>) => (outcome.state === "found" ? outcome.finding.episodes : []);

describe("records as they come", () => {
  test("a minute at one sample a second shows ten waves of six seconds", () => {
    const [episode] = episodes(detect(toned(60, 6)));
    expect(episode.period.low).toBeLessThan(6);
    expect(episode.period.high).toBeGreaterThan(6);
  });
  test("missing samples and a short gap leave one episode", () => {
    const pressure = toned(3000, 20);
    const chance = seededRandom(8);
    for (let i = 0; i < 3000; i++) if (chance.next() < 0.05 || (i > 1200 && i < 1300)) pressure[i] = Number.NaN;
    expect(episodes(detect(pressure))).toHaveLength(1);
  });
  test("at one sample in five seconds the hidden periods and the waves that could fold are named", () => {
    const outcome = detect(toned(2000, 8), evenSampling(2000, 5));
    const [episode] = episodes(outcome);
    // 1 / (1/5 - 1/40) and 1 / (1/5 + 1/40)
    expect(episode.couldBeFoldedFrom[0]).toBeCloseTo(40 / 7, 2);
    expect(episode.couldBeFoldedFrom[1]).toBeCloseTo(40 / 9, 2);
    expect(outcome.state === "found" && outcome.limits[0].id).toBe("sampling-too-slow");
    expect(outcome.state === "found" && outcome.limits[0].detail.hiddenBelowS).toBe(20);
  });
  test("a log on change of stepped values keeps the period, and no faster wave keeps in step with the clock by which it looks", () => {
    const times: number[] = [];
    const values: number[] = [];
    for (let i = 0; i < 3000; i++) {
      const p = Math.round(400 + 20 * Math.sin((2 * Math.PI * i) / 30)) * 1000;
      if (p === values[values.length - 1]) continue;
      times.push(i);
      values.push(p);
    }
    const [episode] = episodes(detect(values, { kind: "on-change", times: Float64Array.from(times), until: seconds(3000) }));
    expect(Math.abs(episode.period.value - 30)).toBeLessThan(0.01);
    expect(episode.couldBeFoldedFrom).toEqual([]);
  });
  test("two waves at once are both told", () => {
    const both = addTone(toned(2000, 37), seededRandom(6), { period: 11, amplitude: 24_000 });
    expect(
      episodes(detect(both))
        .map((e) => Math.round(e.period.value))
        .sort((a, b) => a - b),
    ).toEqual([11, 37]);
  });
  test("a constant or an empty channel shows no wave", () => {
    expect(detect(new Float64Array(500).fill(4e5)).state).toBe("clear");
    expect(detect(new Float64Array(500).fill(Number.NaN)).state).toBe("cannot-tell");
  });
});
