import { describe, expect, test } from "vitest";
import { isCycling } from "../../../../analysis/detectors/oscillation/cycling-wave";
import type { OscillationEpisode } from "../../../../shared/findings/finding";
import type { PumpState } from "../../../../shared/findings/segment";
import { readSiteFacts } from "../../../../shared/site/read-site-facts";
import { pascalDifference } from "../../../../shared/units/pressure";
import { seconds } from "../../../../shared/units/quantity";
import { alwaysRunning, evidenceOf, recordOf } from "../../../builders/known-evidence";
import { about } from "../../../builders/outcomes";
import { noiseOf, seededRandom } from "../../../builders/signals";

const [PERIOD, HEIGHT, COUNT] = [60, 100e3, 1800];
const sine = (x: number) => 0.5 + Math.sin(2 * Math.PI * x) / 2;
const saw = (x: number) => (x < 0.3 ? x / 0.3 : (1 - x) / 0.7);

type Seen = {
  readonly wave?: (x: number, i: number) => number;
  readonly pump?: Partial<PumpState> | null;
  readonly starts?: number;
  readonly episode?: Partial<OscillationEpisode>;
  readonly facts?: object;
  readonly beside?: number;
};
/** Half an hour of waves of a minute; `starts` of the pump, evenly among them; `beside` is how far the pressure goes where there are no waves. */
function cycling({ wave = saw, pump = {}, starts = 30, episode = {}, facts = {}, beside = 0 }: Seen): boolean {
  const pressure = Float64Array.from(
    { length: COUNT + 600 },
    (_, i) => 300e3 + (i < COUNT ? HEIGHT * wave((i / PERIOD) % 1, i) : beside * (i % 2)),
  );
  const record = recordOf({ pressure });
  const runs = Array.from({ length: starts }, (_, k) => ({
    from: seconds((k * COUNT) / starts),
    to: seconds((k * COUNT) / starts + 10),
    complete: true,
  }));
  const state =
    pump === null ? {} : { pump: { ...alwaysRunning(record), basis: "pressure" as const, mode: "switching" as const, runs, ...pump } };
  return isCycling(
    {
      from: seconds(0),
      to: seconds(COUNT),
      channel: "pressure",
      period: about(seconds(PERIOD)),
      peakToPeak: about(pascalDifference(HEIGHT)),
      heightIsLeast: false,
      meterSeesPump: false,
      regularity: 3,
      shape: "triangle",
      drivenBy: "unknown",
      share: 0.9,
      couldBeFoldedFrom: [],
      ...episode,
    },
    evidenceOf(record, state, readSiteFacts(facts, "site")),
  );
}

describe("starts that were read from the pressure itself", () => {
  test("tie a saw-tooth to the pump's switching, from one in every third wave", () => {
    expect(cycling({})).toBe(true);
    expect(cycling({ starts: 10 })).toBe(true);
    expect(cycling({ starts: 9 })).toBe(false);
  });
  test("only those within the waves and one before count", () => {
    const at = (from: number) => ({
      runs: Array.from({ length: 10 }, (_, k) => ({ from: seconds(from + k), to: seconds(from + k + 0.5), complete: true })),
    });
    expect(cycling({ pump: at(1791) })).toBe(true);
    expect(cycling({ pump: at(1792) })).toBe(false);
    expect(cycling({ pump: at(39), episode: { from: seconds(99) } })).toBe(true);
    expect(cycling({ pump: at(38), episode: { from: seconds(99) } })).toBe(false);
  });
  test("smooth waves are a loop's, unless a pump on a switch has no loop", () => {
    expect(cycling({ wave: sine })).toBe(false);
    expect(cycling({ wave: sine, facts: { pump: "fixed-speed" } })).toBe(true);
  });
  test("a pump seen by another witness, or one that does not switch, makes its waves otherwise", () => {
    expect(cycling({ pump: { basis: "speed" } })).toBe(false);
    expect(cycling({ pump: { mode: "always-running" } })).toBe(false);
  });
  test("what the draw drives is no cycling", () => expect(cycling({ episode: { drivenBy: "demand" } })).toBe(false));
});

describe("starts read into a wave that is drowned in noise", () => {
  const chance = seededRandom(8);
  const height = about(pascalDifference(0.4 * HEIGHT));
  const noise = noiseOf(COUNT, chance, 0.9);
  test("do not make it cycling: noise goes on beyond its crests, switching pressures do not", () => {
    const wave = (x: number, i: number) => 0.2 * Math.sin(2 * Math.PI * x) + 0.2 * noise[i];
    expect(cycling({ wave, episode: { peakToPeak: height, shape: "unclear" } })).toBe(false);
  });
  test("a saw-tooth of changing lengths is lower in the mean than its range and still cycling", () => {
    let [pressure, rising] = [0, true];
    let slope = 0.02;
    const wave = () => {
      pressure += rising ? 0.05 : -slope;
      if (pressure > 1 || pressure < 0) {
        rising = pressure < 0;
        slope = 0.01 + 0.04 * chance.next();
      }
      return pressure;
    };
    expect(cycling({ wave, episode: { peakToPeak: height, shape: "unclear" } })).toBe(true);
  });
});

describe("where no start is known", () => {
  const blind = { pump: null, facts: { pump: "fixed-speed" } };
  test("a triangle over most of the pressure's own range is a tank that fills and empties", () => {
    expect(cycling(blind)).toBe(true);
    expect(cycling({ ...blind, episode: { shape: "sine" } })).toBe(false);
    expect(cycling({ ...blind, pump: null, episode: { drivenBy: "demand" } })).toBe(false);
  });
  test("over seven tenths of it", () => {
    expect(cycling({ ...blind, beside: 135e3 })).toBe(true);
    expect(cycling({ ...blind, beside: 150e3 })).toBe(false);
  });
});
