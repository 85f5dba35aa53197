import { describe, expect, test } from "vitest";
import { oscillation } from "../../../../analysis/detectors/oscillation";
import { alwaysRunning, evidenceOf, recordOf } from "../../../builders/known-evidence";
import { noiseOf, seededRandom } from "../../../builders/signals";

const HEIGHT = 30_000; // Pa, top to bottom
const PERIOD = 31;

const sine = (x: number) => Math.sin(2 * Math.PI * x) / 2;
const triangle = (rise: number) => (x: number) => (x < rise ? x / rise : (1 - x) / (1 - rise)) - 0.5;
const square = (duty: number) => (x: number) => (x < duty ? 0.5 : -0.5);

function episodeOf(wave: (phase: number) => number, noise = 1000) {
  const rough = noiseOf(900, seededRandom(6), 0.5);
  const pressure = rough.map((v, i) => 350_000 + noise * v + HEIGHT * wave((i / PERIOD) % 1));
  const record = recordOf({ pressure });
  const outcome = oscillation.detect(evidenceOf(record, { pump: alwaysRunning(record) }));
  if (outcome.state !== "found") throw new Error(outcome.state);
  return outcome.finding.episodes[0];
}

// Fourier series: triangle sin(pi m d) / m^2, pulse sin(pi m d) / m.
describe("the shape of a wave", () => {
  test.each([
    ["sine", sine],
    ["triangle", triangle(0.5)],
    ["triangle", triangle(0.25)],
    ["triangle", triangle(0.8)],
    ["square", square(0.5)],
    ["square", square(0.4)],
  ] as const)("%s", (shape, wave) => {
    const episode = episodeOf(wave);
    expect(episode.shape).toBe(shape);
    expect(Math.abs(episode.period.value - PERIOD)).toBeLessThan(0.05);
  });
  test("stays unclear in much noise", () => {
    expect(episodeOf(triangle(0.5), 20_000).shape).toBe("unclear");
  });
  test("gives the height from top to bottom, not that of the first harmonic", () => {
    expect(episodeOf(triangle(0.5)).peakToPeak.value / HEIGHT).toBeGreaterThan(0.92);
    expect(episodeOf(triangle(0.5)).peakToPeak.value / HEIGHT).toBeLessThan(1.03);
    expect(episodeOf(sine).peakToPeak.value / HEIGHT).toBeCloseTo(1, 1);
  });
});
