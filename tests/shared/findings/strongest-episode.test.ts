import { expect, test } from "vitest";
import type { OscillationEpisode } from "../../../shared/findings/finding";
import { strongestEpisode } from "../../../shared/findings/strongest-episode";

const episode = (value: number, low: number, high: number) => ({ peakToPeak: { value, low, high } }) as OscillationEpisode;

test("the strongest swing is the one that is surely largest, not a taller one that may be nothing; of none there is none", () => {
  const sure = episode(28e3, 25e3, 31e3);
  expect(strongestEpisode([episode(20e3, 19e3, 21e3), sure, episode(32e3, 0, 66e3)])).toBe(sure);
  expect(strongestEpisode([])).toBeNull();
});
