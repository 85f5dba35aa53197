import { describe, expect, test } from "vitest";
import type { Outcome } from "../../../shared/findings/finding";
import { OBSERVATION_IDS, type ObservationId } from "../../../shared/findings/observation";
import type { Channel } from "../../../shared/record/log-record";
import { seconds } from "../../../shared/units/quantity";
import { type Drawn, lookAt, SWITCHED } from "../../builders/look-at";
import { about, channelOf, foundWith, gpm, psi, psiDifference, pumpWith, recordOf, swing, untold } from "../../builders/outcomes";
import { seededRandom } from "../../builders/signals";

/**
 * A log in which nearly everything can be asked, and what can no longer be asked where one thing is taken from it: a question whose evidence is gone stays
 * open, and one that rests on something else is still answered. What needs what stands in the docstrings and follows from what is asked.
 */
const [STEP, HOURS, CYCLE, RUN] = [2, 12, 600, 240];
const times = Array.from({ length: (HOURS * 3600) / STEP }, (_, i) => i * STEP);
const random = seededRandom(5);
const runs = (t: number) => t % CYCLE < RUN;
/** Held at 52 psi after a rise of 6 s; at rest it falls to 44 psi. */
const held = (k: number) => (k < 6 ? 44 + (8 * k) / 6 : k < RUN ? 52 : 52 - (8 * (k - RUN)) / (CYCLE - RUN));
const drawn = (t: number) => (t % 1800 < 900 ? 3 : runs(t) ? 12 + 4 * Math.sin(t / 300) : 4);
const CHANNELS: readonly Channel[] = [
  channelOf(
    "pressure",
    "gaugePressure",
    times.map((t) => psi(held(t % CYCLE) + 0.03 * random.normal())),
    STEP,
  ),
  channelOf(
    "flow",
    "flow",
    times.map((t) => gpm(drawn(t))),
    STEP,
  ),
  channelOf(
    "speed",
    "fraction",
    times.map((t) => (runs(t) ? 0.8 + 0.05 * Math.sin(t / 300) : 0)),
    STEP,
  ),
  channelOf(
    "temperature",
    "temperature",
    times.map(() => 290),
    STEP,
  ),
];
const FOUND: readonly Outcome[] = [
  swing(20, 2, "loop"),
  foundWith("cycling", {
    starts: 72,
    startsPerHour: about(6),
    peakStartsPerHour: 8,
    cutIn: about(psi(44)),
    cutOut: about(psi(52)),
    expectedShortestCycle: seconds(100),
    startsByDraw: { none: 10, small: 30, large: 32 },
  }),
  foundWith("tank-charge", { emptiesAt: about(psi(35)) }),
  foundWith("leak-down"),
  foundWith("sensor", { scaleRatio: 1, noiseGrowth: null }),
  foundWith("tracking", { droop: about(1e7), worstDip: { at: seconds(100), depth: psiDifference(4), recovery: seconds(5) } }),
  foundWith("pump-performance"),
];
const ALL: Drawn = {
  outcomes: FOUND,
  pump: pumpWith(Array.from({ length: (HOURS * 3600) / CYCLE }, (_, i) => [i * CYCLE, RUN] as const)),
  record: recordOf(CHANNELS, HOURS),
};
const open = (of: Drawn): ObservationId[] => OBSERVATION_IDS.filter((id) => lookAt(id, of) === null);
const openInAll = open(ALL);
const without = (change: Drawn): string[] =>
  open({ ...ALL, ...change })
    .filter((id) => !openInAll.includes(id))
    .sort();
const sorted = (ids: string) => ids.split(" ").filter((id) => id !== "").sort(); // biome-ignore format: one thing
const channelsBut = (role: string) => recordOf(CHANNELS.filter((c) => c.role !== role), HOURS); // biome-ignore format: one thing
const onChange = recordOf(
  CHANNELS.map((c) => ({ ...c, sampling: { kind: "on-change", until: seconds(HOURS * 3600), times: Float64Array.from(times) } })),
  HOURS,
);

test("most can be asked of the whole", () => expect(OBSERVATION_IDS.length - openInAll.length).toBeGreaterThan(30));

const TAKEN: readonly (readonly [string, Drawn, string])[] = [
  [
    "which runs there were",
    { pump: null },
    "runs cycle-against-tank quiet-times start-gaps start-rhythm prime answer-to-draw loop-pace draw-rhythm swing-in-runs levels-walk",
  ],
  ["what is drawn", { draw: null }, "starts-without-draw starts-in-small-draws quiet-times"],
  [
    "channel of pressure",
    { record: channelsBut("pressure") },
    "sensor-stuck start-gaps answer-to-draw loop-pace rise-pace sunk-pressure low-times usual-pressure usual-fall jump-from-still draw-rhythm levels-walk",
  ],
  ["channel of flow", { record: channelsBut("flow") }, "prime draw-rhythm"],
  ["channel of speed", { record: channelsBut("speed") }, "overdraw"],
  ["most of its length", { record: recordOf(CHANNELS, 0.9) }, "quiet-times jump-from-still draw-rhythm levels-walk"],
  ["even sampling (a log on change holds no noise and no pace)", { record: onChange }, "sensor-stuck rise-pace jump-from-still"],
  [
    "even sampling and runs",
    { record: onChange, pump: null },
    "runs cycle-against-tank sensor-stuck quiet-times start-gaps start-rhythm prime answer-to-draw loop-pace rise-pace sunk-pressure usual-fall jump-from-still draw-rhythm swing-in-runs levels-walk",
  ],
  [
    "a set pressure, neither given nor read off the log",
    { facts: { setPressure: undefined }, outcomes: [...FOUND.filter(({ kind }) => kind !== "tracking"), untold("tracking")] },
    "answer-to-draw dips droop empties-at gas-constant-by-practice held-pressure loop-pace low-times overdraw precharge-by-facts rise-pace sunk-pressure surge-period switching-band usual-fall usual-pressure",
  ],
  [
    "a drive's set pressure, with a switch instead",
    { facts: SWITCHED },
    "switching-band noise-with-flow held-pressure droop dips overdraw answer-to-draw loop-pace rise-pace",
  ],
];
describe("with everything but", () => {
  test.each(TAKEN)("%s", (_, change, ids) => expect(without(change)).toEqual(sorted(ids)));
});

/** What rests on a finding is as open as the finding. */
const RESTS_ON: readonly (readonly [Outcome["kind"], string])[] = [
  ["cycling", "starts-without-draw starts-in-small-draws cycle-against-tank switching-band"],
  ["short-cycles", "runs"],
  ["oscillation", "oscillation oscillation-driver oscillation-period surge-period swing-in-runs"],
  ["drift", "drift"],
  ["tracking", "held-pressure droop dips"],
  ["tank-charge", "empties-at"],
  ["leak-down", "leak-down leak-side"],
  ["sensor", "noise noise-with-flow sensor-lag sensor-stuck sensor-scale sensor-pinned"],
  ["pump-performance", "droop prime overdraw shutoff"],
  ["demand", ""],
];
describe("with every finding but", () => {
  test.each(RESTS_ON)("%s", (kind, ids) =>
    expect(without({ outcomes: [...FOUND.filter((o) => o.kind !== kind), untold(kind)] })).toEqual(sorted(ids)),
  );
});

const RESTS_ON_FACT: readonly (readonly [string, string])[] = [
  ["setPressure", "overdraw"],
  ["pump", "pump-kind"],
  ["pumpRatedFlow", "tank-by-facts gas-constant-by-practice usual-fall"],
  ["tankVolume", "tank-by-facts gas-constant"],
  ["precharge", "precharge-by-facts"],
  ["sensorToTank", "surge-period sensor-distance"],
  ["pipeInsideDiameter", "surge-period"],
];
describe("with every fact but", () => {
  test.each(RESTS_ON_FACT)("%s", (fact, ids) => expect(without({ facts: { [fact]: undefined } })).toEqual(sorted(ids)));
});
