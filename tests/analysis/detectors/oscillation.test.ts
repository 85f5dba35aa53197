import { describe, expect, test } from "vitest";
import { oscillation } from "../../../analysis/detectors/oscillation";
import type { OscillationEpisode } from "../../../shared/findings/finding";
import { evidenceOf as builtEvidence } from "../../builders/evidence";
import { alwaysRunning, evenSampling, evidenceOf, listedSampling, recordOf } from "../../builders/known-evidence";
import { recordOf as builtRecord, channel, every } from "../../builders/record";
import { addTone, noiseOf, seededRandom } from "../../builders/signals";

const LEVEL = 350_000; // Pa
const SIZE = 8_000; // Pa for an amplitude of 1

/** Pressure from a column of unit size, with the pump running throughout. */
function detect(shape: Float64Array, sampling = evenSampling(shape.length)) {
  const record = recordOf({ pressure: shape.map((v) => LEVEL + SIZE * v) }, sampling);
  return oscillation.detect(evidenceOf(record, { pump: alwaysRunning(record) }));
}
function episodesOf(shape: Float64Array, sampling = evenSampling(shape.length)): readonly OscillationEpisode[] {
  const outcome = detect(shape, sampling);
  return outcome.state === "found" ? outcome.finding.episodes : [];
}

describe("a known sine in part of a record", () => {
  const chance = seededRandom(11);
  const shape = addTone(noiseOf(3600, chance, 0.9), chance, { period: 20, amplitude: 2, from: 1000, to: 2200 });
  const [episode, ...others] = episodesOf(shape);
  test("is one episode that begins and ends with it", () => {
    expect(others).toEqual([]);
    expect(Math.abs(episode.from - 1000)).toBeLessThan(60);
    expect(Math.abs(episode.to - 2200)).toBeLessThan(60);
  });
  test("has its period and its height inside the intervals", () => {
    expect(episode.period.low).toBeLessThan(20);
    expect(episode.period.high).toBeGreaterThan(20);
    expect(episode.peakToPeak.low).toBeLessThan(4 * SIZE);
    expect(episode.peakToPeak.high).toBeGreaterThan(4 * SIZE);
  });
  test("is regular, a sine, and nobody's without flow", () => {
    expect(episode.regularity).toBeGreaterThan(1);
    expect(episode.shape).toBe("sine");
    expect(episode.drivenBy).toBe("unknown");
  });
});

describe("a sine that comes and goes without losing its beat", () => {
  const chance = seededRandom(3);
  const shape = noiseOf(3990, chance, 0.7);
  const phase = 2 * Math.PI * chance.next();
  const spans = [570, 1710, 2850].map((from) => ({ from, to: from + 570 }));
  for (const { from, to } of spans) for (let i = from; i < to; i++) shape[i] += 2 * Math.sin((2 * Math.PI * i) / 38 + phase);
  test("is as many episodes as it came, though the longest window shows it best", () => {
    const found = episodesOf(shape);
    expect(found).toHaveLength(3);
    for (const [k, { from, to }] of spans.entries()) {
      expect(Math.abs(found[k].from - from)).toBeLessThan(100);
      expect(Math.abs(found[k].to - to)).toBeLessThan(100);
    }
  });
});

describe("no oscillation", () => {
  test("in noise of any colour", () => {
    for (const memory of [0, 0.5, 0.9, 0.97]) expect(episodesOf(noiseOf(3000, seededRandom(7), memory))).toEqual([]);
  });
  test("in one damped ring after a step", () => {
    const ring = Float64Array.from({ length: 1200 }, (_, i) => (i < 400 ? 0 : 3 * Math.exp(-(i - 400) / 40) * Math.cos((i - 400) / 3)));
    const noise = noiseOf(1200, seededRandom(3), 0.5);
    expect(episodesOf(ring.map((v, i) => v + 0.3 * noise[i]))).toEqual([]);
  });
  test("in the rhythm of the day, at a sample every five minutes for two weeks", () => {
    const daily = addTone(noiseOf(4032, seededRandom(12), 0.5), seededRandom(13), { period: 288, amplitude: 2 });
    expect(episodesOf(daily, evenSampling(4032, 300))).toEqual([]);
    expect(episodesOf(daily, evenSampling(4032, 5))).toHaveLength(1);
  });
  test("that is too small to matter: a tenth of the site's limit", () => {
    const chance = seededRandom(5);
    const small = addTone(
      noiseOf(2000, chance).map((v) => v * 0.01),
      chance,
      { period: 20, amplitude: 0.1 },
    );
    expect(episodesOf(small)).toEqual([]);
  });
});

describe("uneven sampling", () => {
  const chance = seededRandom(9);
  let t = 0;
  const times = Float64Array.from({ length: 900 }, () => {
    t += 0.4 + 1.2 * chance.next();
    return t;
  });
  const shape = noiseOf(900, chance).map((v, i) => v + 1.5 * Math.sin((2 * Math.PI * times[i]) / 33));
  test("keeps the period and cannot fold", () => {
    const [episode] = episodesOf(shape, listedSampling(times));
    expect(episode.period.low).toBeLessThan(33);
    expect(episode.period.high).toBeGreaterThan(33);
    expect(episode.couldBeFoldedFrom).toEqual([]);
  });
});

describe("what the log cannot show", () => {
  const reasons = (outcome: ReturnType<typeof detect>) =>
    outcome.state === "cannot-tell" ? outcome.because.map((b) => b.id) : outcome.state;
  test("waves at one sample a minute", () => {
    expect(reasons(detect(noiseOf(2000, seededRandom(1)), evenSampling(2000, 60)))).toContain("sampling-too-slow");
  });
  test("waves in values of coarse steps", () => {
    const steps = noiseOf(2000, seededRandom(2)).map((v) => (Math.round(v / 3) * 33_000) / SIZE);
    expect(reasons(detect(steps))).toContain("quantised-too-coarse");
  });
  test("waves in a record of twenty seconds", () => {
    expect(reasons(detect(noiseOf(20, seededRandom(3))))).toContain("record-too-short");
  });
  test("waves without pressure", () => {
    const outcome = oscillation.detect(evidenceOf({ ...recordOf({ pressure: [1, 2] }), channels: [] }));
    expect(reasons(outcome)).toEqual(["no-pressure-channel"]);
  });
});

describe("pressure alone on a switch", () => {
  test("a saw-tooth of the pump itself is cycling, though nearly all of it is one harmonic (triangle: 96 / pi^4 = 98.5 % of the variance)", () => {
    const chance = seededRandom(31);
    const saw = Array.from(
      { length: 1200 },
      (_, i) => 350_000 + 70_000 * (2 * Math.abs(((i / 18) % 1) - 0.5) - 0.5) + 400 * chance.normal(),
    );
    const evidence = builtEvidence(builtRecord([channel("pressure", every(1, saw.length), saw)]), { pump: "fixed-speed" });
    expect(oscillation.detect(evidence).state).not.toBe("found");
  });
});
