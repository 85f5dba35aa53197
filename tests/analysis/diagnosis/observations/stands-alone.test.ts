import { describe, expect, test } from "vitest";
import { standsAlone } from "../../../../analysis/diagnosis/observations/stands-alone";
import { levelAt } from "../../../builders/look-at";
import { channelOf, NO_FACTS, psi, pumpWith, recordOf, segmentsWith } from "../../../builders/outcomes";
import { noiseOf, seededRandom } from "../../../builders/signals";

/** Six hours at 2 s in steps of 0.1 psi: a saw-tooth of 20 min, noise of 0.1 psi or none, and from 2 h to 3 h the reading as it was at 2 h. Invented. */
const STEP = 2;
const HOUR = 3600;
const NOISE = noiseOf((6 * HOUR) / STEP, seededRandom(5));
const cycle = 1200;
function logOf({ sigma = 0.1, frozen = true, rests = 0.3 }) {
  const at = (t: number) => {
    const k = (t % cycle) / cycle;
    return k < rests ? 50 : k < 0.8 ? 50 - (12 * (k - rests)) / (0.8 - rests) : 38 + 60 * (k - 0.8);
  };
  const values = Array.from({ length: NOISE.length }, (_, i) => {
    const still = frozen && i * STEP >= 2 * HOUR && i * STEP < 3 * HOUR;
    const [t, k] = still ? [2 * HOUR + 400, (2 * HOUR) / STEP] : [i * STEP, i];
    return psi(Math.round(10 * (at(t) + sigma * NOISE[k])) / 10);
  });
  return recordOf([channelOf("pressure", "gaugePressure", values, STEP)], 6);
}
const sightOf = (drawn: Parameters<typeof logOf>[0], pump = pumpWith([])) => ({
  outcomes: [],
  segments: segmentsWith(pump),
  site: NO_FACTS,
  record: logOf(drawn),
});

describe("a reading that stands to the digit", () => {
  test("for an hour, where noise moves it all day, is no water's: by the pressure alone", () => {
    const [span, ...others] = standsAlone(sightOf({}));
    expect([span.from / HOUR, span.to / HOUR]).toEqual([expect.closeTo(2, 2), expect.closeTo(3, 2)]);
    expect(others).toEqual([]);
    expect(levelAt("sensor-stuck", { record: logOf({}), outcomes: [] })).toBe("stuck");
  });
  test("nothing of a live one, noisy or without noise, nor where rests stand still everywhere", () => {
    expect(standsAlone(sightOf({ frozen: false }))).toEqual([]);
    expect(standsAlone(sightOf({ frozen: false, sigma: 0 }))).toEqual([]);
    expect(standsAlone(sightOf({ frozen: true, sigma: 0, rests: 0.7 }))).toEqual([]);
  });
  test("without noise to miss: while the pump is seen to start and stop", () => {
    const runs = Array.from({ length: 17 }, (_, i) => [i * cycle + 0.8 * cycle, 0.2 * cycle] as const);
    const quiet = { frozen: true, sigma: 0, rests: 0.2 };
    expect(standsAlone(sightOf(quiet, pumpWith(runs)))).toHaveLength(1);
    expect(standsAlone(sightOf(quiet, { ...pumpWith(runs), basis: "pressure" }))).toEqual([]);
  });
});
