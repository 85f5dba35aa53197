import { quantileSorted } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { oscillation } from "../../../../analysis/detectors/oscillation";
import { isCycling } from "../../../../analysis/detectors/oscillation/cycling-wave";
import { companionOf } from "../../../../analysis/detectors/oscillation/driver";
import { episodeSpans, type Group, groupCandidates } from "../../../../analysis/detectors/oscillation/episode-span";
import { type RefinedWave, refineWave } from "../../../../analysis/detectors/oscillation/refine";
import { steadinessOf } from "../../../../analysis/detectors/oscillation/steadiness";
import { waveBlocks } from "../../../../analysis/detectors/oscillation/waves";
import { hiddenBySampling } from "../../../../analysis/detectors/oscillation/what-cannot-be-seen";
import { standingOut } from "../../../../analysis/detectors/oscillation/window-peaks";
import { screen } from "../../../../analysis/detectors/oscillation/window-power";
import { type Candidate, searchStretch } from "../../../../analysis/detectors/oscillation/window-search";
import type { EvenStretch } from "../../../../analysis/segments/even-stretch";
import type { OscillationEpisode } from "../../../../shared/findings/finding";
import { pascalDifference } from "../../../../shared/units/pressure";
import { seconds } from "../../../../shared/units/quantity";
import { alwaysRunning, evidenceOf, recordOf } from "../../../builders/known-evidence";
import { about } from "../../../builders/outcomes";
import { channel, every } from "../../../builders/record";
import { noiseOf, seededRandom } from "../../../builders/signals";

const TURN = 2 * Math.PI;
const tone = (count: number, period: number, amplitude = 1, phase = 0) =>
  Float64Array.from({ length: count }, (_, i) => amplitude * Math.cos((TURN * i) / period + phase));
const timesOf = (count: number) => Float64Array.from({ length: count }, (_, i) => i);

describe("an episode as it is told", () => {
  const noise = noiseOf(960, seededRandom(12));
  const outcomeOf = (pump: Partial<ReturnType<typeof alwaysRunning>> = {}) => {
    const record = recordOf({ pressure: noise.map((v, i) => 4e5 + 500 * v + 1e4 * Math.sin((TURN * i) / 24)) });
    return oscillation.detect(evidenceOf(record, { pump: { ...alwaysRunning(record), ...pump } }));
  };
  // Rife & Boorstyn 1974: the amplitude of a tone in white noise s has the standard error s sqrt(2/n); its height is twice that.
  test("its height has the interval of least squares in white noise", () => {
    const outcome = outcomeOf();
    if (outcome.state !== "found") throw new Error(outcome.state);
    const { value, low, high } = outcome.finding.episodes[0].peakToPeak;
    const reach = 1.96 * 2 * 500 * Math.sqrt(2 / 960);
    // Upward also what a logger of means would have taken off: sin(x) / x of a sine, x half the turn of a sample.
    const kept = Math.sin(Math.PI / 24) / (Math.PI / 24);
    for (const side of [value - low, high * kept - value]) {
      expect(side / reach).toBeGreaterThan(0.7);
      expect(side / reach).toBeLessThan(1.5);
    }
    expect(low).toBeLessThan(2e4);
    expect(high).toBeGreaterThan(2e4);
    // The same source: its frequency sqrt(6) s / (pi a T sqrt(n)), its period that times the period's square.
    const { period } = outcome.finding.episodes[0];
    const sd = (24 ** 2 * Math.sqrt(6) * 500) / (Math.PI * 1e4 * 960 * Math.sqrt(960));
    for (const side of [period.value - period.low, period.high - period.value]) {
      expect(side / (1.96 * sd)).toBeGreaterThan(0.7);
      expect(side / (1.96 * sd)).toBeLessThan(1.6);
    }
  });
  test("a pump state read from the pressure's own saw-tooth hides no part of the record from the search", () => {
    const runs = [{ from: seconds(0), to: seconds(100), complete: false }];
    for (const basis of ["pressure", "running"] as const) {
      const outcome = outcomeOf({ basis, mode: "switching", runs });
      const length = outcome.state === "found" ? outcome.finding.episodes[0].to - outcome.finding.episodes[0].from : 0;
      if (basis === "pressure") expect(length).toBeGreaterThan(900);
      else expect(length).toBeLessThan(101);
    }
  });
});

describe("blocks of a wave", () => {
  test("whose readings all stand at one phase tell no size", () => {
    const times = Float64Array.from({ length: 40 }, (_, k) => 20 * k + 3);
    const blocks = waveBlocks({ times, values: times.map((t) => Math.sin(t)) }, 1 / 20, 5, 0, 8);
    expect([...blocks.re].every(Number.isNaN)).toBe(true);
  });
  test("a second channel needs three of them", () => {
    const refined = refineWave({ times: timesOf(960), values: tone(960, 24, 1e4) }, 24, { density: 1, carriedBy: 20 }, 0) as RefinedWave;
    const { length } = refined.blocks;
    const seenFor = (blocks: number) => {
      const values = tone(960, 24, 1e-4).map((v, i) => (i <= blocks * length ? v : Number.NaN));
      return companionOf(channel("flow", every(1, 960), values), refined, 0, 959);
    };
    expect(seenFor(2)).toBeNull();
    expect(seenFor(3)?.coherence).toBeCloseTo(1, 6);
  });
  /** Where the blocks alone are believed, their scatter must give the noise without bias: s sqrt(2/n) in the mean of squares over many logs. */
  test("five of them alone give the noise without bias", () => {
    const chance = seededRandom(33);
    const logs = 150;
    let squares = 0;
    for (let k = 0; k < logs; k++) {
      const noise = noiseOf(101, chance);
      const values = tone(101, 20, 1e4, 1).map((v, i) => v + 500 * noise[i]);
      squares += refineWave({ times: timesOf(101), values }, 20, { density: 1e-9, carriedBy: 50 }, 0)!.amplitudeSd ** 2;
    }
    expect(Math.sqrt(squares / logs) / (500 * Math.sqrt(2 / 101))).toBeGreaterThan(0.9);
    expect(Math.sqrt(squares / logs) / (500 * Math.sqrt(2 / 101))).toBeLessThan(1.12);
  });
});

describe("a refined wave", () => {
  const noise = noiseOf(9000, seededRandom(41));
  const drawn = (count: number, step = 1, kept: (t: number) => boolean = () => true) => {
    const times = timesOf(count)
      .map((i) => i * step)
      .filter(kept);
    return { times, values: times.map((t) => 4e5 + 1000 * Math.cos((TURN * t) / 23.3 + 1) + 20 * noise[Math.round(t / step)]) };
  };
  test("its size is known to s sqrt(2/n) whatever the interval of the log, and less where its ends are unsure", () => {
    // White noise of one reading every `step` s has the two-sided density s^2 step.
    const sd = (step: number, unsure = 0) =>
      refineWave(drawn(900, step), 23, { density: 400 * step, carriedBy: 5000 }, unsure * 899 * step)!.amplitudeSd;
    for (const step of [1, 3]) expect(sd(step) / (20 * Math.sqrt(2 / 900))).toBeCloseTo(1, 1);
    expect(sd(1, 0.2) / sd(1)).toBeCloseTo(0.8 ** -0.5, 6);
  });
  test("a hole of some waves changes neither its period nor its size, in a short log and in a long one", () => {
    for (const [count, from, to] of [
      [900, 200, 320],
      [9000, 2000, 4500],
    ] as const) {
      // biome-ignore format: logs
      const wave = refineWave(drawn(count, 1, (t) => t < from || t >= to), 23.3, { density: 400, carriedBy: 50 }, 0)!;
      expect(1 / wave.frequency).toBeCloseTo(23.3, 2);
      expect(wave.amplitude / 1000).toBeCloseTo(1, 2);
      expect(wave.coherent).toBe(true);
    }
  });
  /** A hundred waves of 20 s in a third of their size of white noise; the phase walks at random by so many rad a second. */
  const walks = (walk: number) => {
    const chance = seededRandom(77);
    return Array.from({ length: 12 }, () => {
      let phase = 0;
      const values = Float64Array.from({ length: 2000 }, () => {
        phase += TURN / 20 + walk * chance.normal();
        return 1000 * Math.cos(phase) + 300 * chance.normal();
      });
      return refineWave({ times: timesOf(2000), values }, 20, { density: 9e4, carriedBy: 20 }, 0)!;
    });
  };
  const holding = (waves: readonly RefinedWave[]) => waves.filter((w) => w.frequencyLow <= 1 / 20 && 1 / 20 <= w.frequencyHigh).length;
  test.each([0.02, 0.15])(
    "whose phase walks at random, by %d rad a second, has an interval that holds the drawn mean; as one steady tone it was none in ten",
    (walk) => {
      const waves = walks(walk);
      expect(waves.filter(({ coherent }) => coherent).length).toBeLessThan(2);
      expect(holding(waves)).toBeGreaterThanOrEqual(10); // of 12
    },
  );
  test("of one steady tone keeps the narrow interval of one", () => {
    const waves = walks(0);
    expect(waves.filter(({ coherent }) => coherent).length).toBeGreaterThanOrEqual(10); // one in twenty by chance is not
    expect(holding(waves)).toBeGreaterThanOrEqual(10);
  });
});

describe("steadiness", () => {
  test("what is slower than the wave is taken off before it is looked at", () => {
    const riding = tone(240, 12).map((v, i) => v + 30 * Math.cos((TURN * i) / 200) + 0.2 * i);
    const { regularity, inPhase, medianWave } = steadinessOf(riding, 240, 12);
    expect(regularity).toBeGreaterThan(3);
    expect(inPhase).toBe(1);
    expect(medianWave).toBeCloseTo(1, 1);
  });
});

describe("the quick look at a window", () => {
  test("between two bins stands (pi/4)^2 of the power of their difference", () => {
    const values = noiseOf(32, seededRandom(2));
    const part = (of: (x: number) => number, k: number) => values.reduce((sum, v, i) => sum + v * of((TURN * k * i) / 32), 0);
    const { power } = screen(Float64Array.from(values));
    for (let k = 0; k < 16; k++) {
      const [re, im] = [Math.cos, Math.sin].map((of) => part(of, k) - part(of, k + 1));
      expect(power[2 * k + 1]).toBeCloseTo((Math.PI / 4) ** 2 * (re ** 2 + im ** 2), 9);
    }
  });
});

describe("peaks out of their neighbours", () => {
  const flat = (peaks: Readonly<Record<number, number>>, bins: number) => {
    const power = Float64Array.from({ length: bins }, (_, k) => peaks[k] ?? 1);
    const sums = new Float64Array(bins + 1);
    for (let k = 0; k < bins; k++) sums[k + 1] = sums[k] + power[k];
    return { power, sums };
  };
  test("of four waves in the window, however finely the bins are spaced", () => {
    expect(standingOut(flat({ 16: 90 }, 257), 4, 0, 8)).toEqual([16]);
    expect(standingOut(flat({ 15: 90 }, 257), 4, 0, 8)).toEqual([]);
    expect(standingOut(flat({ 32: 90 }, 513), 8, 0, 8)).toEqual([32]);
    expect(standingOut(flat({ 31: 90 }, 513), 8, 0, 8)).toEqual([]);
  });
  test("are not hidden by their own second harmonic, which stands above a quarter of the rate", () => {
    expect(standingOut(flat({ 50: 9, 100: 5000 }, 129), 2, 0, 8)).toEqual([50]);
    expect(standingOut(flat({ 50: 9, 90: 5000 }, 129), 2, 0, 8)).toEqual([]);
  });
  test("count against what lies from half to twice of them, not against what is far slower", () => {
    expect(standingOut(flat({ 40: 9, 5: 5000 }, 129), 2, 0, 8)).toEqual([40]);
    expect(standingOut(flat({ 40: 9, 25: 7, 26: 7, 27: 7, 28: 7, 29: 7, 30: 7, 31: 7, 32: 7, 33: 7, 34: 7 }, 129), 2, 0, 8)).toEqual([]);
  });
  test("the two strongest of three, no one a harmonic of another", () => {
    expect(standingOut(flat({ 23: 60, 37: 400, 53: 150 }, 129), 2, 0, 8)).toEqual([37, 53]);
    expect(standingOut(flat({ 23: 150, 37: 60, 53: 400 }, 129), 2, 0, 8)).toEqual([53, 23]);
    expect(standingOut(flat({ 20: 100, 37: 60, 40: 400 }, 129), 2, 0, 8)).toEqual([40]);
  });
});

const candidate = (from: number, to: number, period: number, change: Partial<Candidate> = {}): Candidate => ({
  from,
  to,
  period,
  amplitude: 5e3,
  ratio: 3000,
  noiseDensity: 25e4,
  carriedBy: 20,
  logChance: -90,
  regularity: 3,
  cycles: (to - from) / period,
  ...change,
});

describe("groups of windows", () => {
  test("a chain of windows over each other is one from end to end, in whatever order; one apart is another", () => {
    const chain = [candidate(200, 300, 10), candidate(290, 400, 10), candidate(100, 210, 10), candidate(390, 500, 10)];
    const apart = candidate(900, 1000, 10, { logChance: -20 });
    expect(groupCandidates([...chain, apart])).toMatchObject([{ from: 100, to: 500 }, { from: 900, to: 1000 }]); // biome-ignore format: groups
    expect(groupCandidates([apart, candidate(50, 60, 10, { logChance: -10 }), ...chain])).toMatchObject([
      { from: 100, to: 500 },
      { from: 900, to: 1000 },
      { from: 50, to: 60 },
    ]);
  });
  test("a window within another adds no time", () => {
    expect(groupCandidates([candidate(100, 500, 10), candidate(200, 300, 10)])).toMatchObject([{ from: 100, to: 500 }]);
  });
});

describe("where an episode begins and ends", () => {
  const noise = noiseOf(7200, seededRandom(17));
  /** A sine of 20 s and 5 kPa in noise of 0.5 kPa, from and to, in a stretch that begins at `begin` s of the record. */
  const drawn = (pieces: readonly (readonly [number, number])[], { begin = 0, count = 7200, phase = 0 } = {}): EvenStretch => ({
    from: seconds(begin),
    to: seconds(begin + count - 1),
    step: 1,
    values: Float64Array.from({ length: count }, (_, i) => {
      const within = pieces.some(([a, b]) => begin + i >= a && begin + i < b);
      return 4e5 + 500 * noise[i] + (within ? 5e3 * Math.sin((TURN * i) / 20 + phase) : 0);
    }),
    first: 0,
    end: count,
  });
  const over = (from: number, to: number, change: Partial<Candidate> = {}): Group => {
    const best = candidate(from, to, 20, change);
    return { from, to, best, noiseDensity: 25e4 };
  };
  const near = (found: number, drawnAt: number) => expect(Math.abs(found - drawnAt)).toBeLessThanOrEqual(20);
  test.each([0, 1, 2.5, 4])("whatever its phase (%d) and wherever in the record its stretch begins", (phase) => {
    const [episode, ...others] = episodeSpans(drawn([[7000, 8500]], { begin: 5000, phase }), over(7100, 8400));
    expect(others).toEqual([]);
    near(episode.from, 7000);
    near(episode.to, 8500);
  });
  test("two whole waves before it are no longer the stretch's own begin or end, one is", () => {
    const ends = (a: number, b: number) => episodeSpans(drawn([[a, b]], { count: 1600 }), over(100, 1500))[0];
    expect(ends(20, 1580)).toEqual({ from: 0, to: 1599, unsure: 0 });
    const inside = ends(40, 1560);
    near(inside.from, 40);
    expect(inside.from).toBeGreaterThan(20);
    near(inside.to, 1560);
    expect(inside.to).toBeLessThan(1580);
    expect(inside.unsure).toBeGreaterThan(0);
  });
  // Log-likelihood: a break of seven waves costs half of each; more than the 2.5 that a plain wave may lose, less than the 6 of one as small as its noise.
  test("a break of seven waves parts a plain wave, not one that hardly stands out of its noise", () => {
    const broken = drawn([[1000, 2000], [2140, 3000]]); // biome-ignore format: pieces
    expect(episodeSpans(broken, over(1000, 3000))).toHaveLength(2);
    expect(episodeSpans(broken, over(1000, 3000, { ratio: 100 }))).toHaveLength(1);
  });
  test("a window far longer than the wave thins it out; its ends are the wave's all the same", () => {
    const thinned = over(0, 7199, { amplitude: 1250, ratio: 180 });
    const [episode, ...others] = episodeSpans(drawn([[2600, 4400]]), thinned);
    expect(others).toEqual([]);
    expect(Math.abs(episode.from - 2600)).toBeLessThanOrEqual(40);
    expect(Math.abs(episode.to - 4400)).toBeLessThanOrEqual(40);
  });
});

describe("the search", () => {
  test("counts the waves of each window", () => {
    const values = noiseOf(512, seededRandom(3)).map((v, i) => 4e5 + 300 * v + 5e3 * Math.sin((TURN * i) / 16));
    const all = searchStretch(
      { from: seconds(0), to: seconds(511), step: 1, values, first: 0, end: 512 },
      { leastAmplitude: 700, logLevel: Math.log(0.001 / 512) },
    );
    expect(all.length).toBeGreaterThan(0);
    for (const { from, to, period, cycles } of all) expect(Math.abs(cycles - (to - from) / period)).toBeLessThan(0.3);
  });
});

describe("what gaps hide", () => {
  const LARGEST = 20e3;
  const ch = channel("pressure", every(1, 4000), noiseOf(4000, seededRandom(1)).map((v) => 4e5 + v)); // biome-ignore format: short
  const hidden = (spans: readonly (readonly [number, number])[], duration: number) =>
    hiddenBySampling(
      ch,
      spans.map(
        ([from, to]): EvenStretch => ({ from: seconds(from), to: seconds(to), step: 1, values: new Float64Array(0), first: 0, end: 0 }),
      ),
      null,
      duration,
      LARGEST,
    );
  test("less than half of the time seen is said; with no piece of five waves it leaves no answer", () => {
    expect(hidden([[0, 499]], 1000)).toEqual({ limits: [{ id: "gaps-too-many", about: "oscillation", detail: { seenShare: 0.499, needS: 25 } }], blocking: [] }); // biome-ignore format: one
    expect(hidden([[0, 501]], 1000)).toEqual({ limits: [], blocking: [] });
    expect(hidden([[0, 24], [30, 54]], 1000)).toEqual({ limits: [], blocking: [{ id: "gaps-too-many", about: "oscillation", detail: { seenShare: 0.048, needS: 25 } }] }); // biome-ignore format: one
  });
  test("short pieces of most of the time are a pump that never runs long enough", () => {
    const pieces = Array.from({ length: 40 }, (_, k) => [25 * k, 25 * k + 20] as const);
    expect(hidden(pieces, 1000)).toMatchObject({ limits: [], blocking: [{ id: "nothing-to-see", detail: { longestS: 20 } }] });
  });
});

describe("starts read into a wave that is drowned in noise", () => {
  const COUNT = 1800;
  const noise = noiseOf(COUNT, seededRandom(8));
  const swing = Float64Array.from(noise, (v, i) => 3e5 + 1e4 * (Math.sin((TURN * i) / 60) + v));
  const sorted = [...swing].sort((a, b) => a - b);
  const range = quantileSorted(sorted, 0.98) - quantileSorted(sorted, 0.02);
  /** Half an hour of it, then much quieter, then a wide swing: what lies outside the episode is not asked. */
  const pressure = Float64Array.from([
    ...swing,
    ...new Array(2000).fill(3e5),
    ...new Array(9000).fill(0).map((_, i) => 3e5 + 9e4 * (i % 2)),
  ]);
  const cycling = (height: number) => {
    const record = recordOf({ pressure });
    const runs = Array.from({ length: 30 }, (_, k) => ({ from: seconds(60 * k), to: seconds(60 * k + 20), complete: true }));
    const episode: OscillationEpisode = {
      from: seconds(0),
      to: seconds(COUNT),
      channel: "pressure",
      period: about(seconds(60)),
      peakToPeak: about(pascalDifference(height)),
      heightIsLeast: false,
      meterSeesPump: false,
      regularity: 3,
      shape: "unclear",
      drivenBy: "unknown",
      share: 0.5,
      couldBeFoldedFrom: [],
    };
    const pump = { ...alwaysRunning(record), basis: "pressure" as const, mode: "switching" as const, runs };
    const site = { ...evidenceOf(record).site, pump: "fixed-speed" as const };
    return isCycling(episode, evidenceOf(record, { pump }, site));
  };
  test("do not count where it is under half of what the readings around it range over", () => {
    expect(cycling(0.48 * range)).toBe(false);
    expect(cycling(0.52 * range)).toBe(true);
  });
});
