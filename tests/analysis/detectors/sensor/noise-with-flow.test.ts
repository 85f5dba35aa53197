import { describe, expect, test } from "vitest";
import { noiseWithFlow } from "../../../../analysis/detectors/sensor/noise-with-flow";
import { seconds } from "../../../../shared/units/quantity";
import { alwaysRunning, evidenceOf } from "../../../builders/known-evidence";
import { channel, every, onChange, recordOf } from "../../../builders/record";
import { noiseOf, seededRandom } from "../../../builders/signals";

const BLOCK = 16;
type Block = { readonly flow: number; readonly noise: number; readonly change?: number };

/** Blocks of 16 readings, each with its flow (L/s) and the spread of its pressure's white noise (Pa); `change` is how far the flow moves within it. */
type Seen = {
  readonly metered?: boolean;
  readonly held?: boolean;
  readonly seed?: number;
  readonly runs?: readonly (readonly [number, number])[];
};
function growthOf(blocks: readonly Block[], { metered = true, held = false, seed = 4, runs }: Seen = {}) {
  const count = blocks.length * BLOCK;
  const noise = noiseOf(count, seededRandom(seed));
  const of = (value: (block: Block, i: number) => number) =>
    Float64Array.from({ length: count }, (_, i) => value(blocks[Math.floor(i / BLOCK)], i));
  const sampling = held ? onChange(Array.from({ length: count }, (_, i) => i), count) : every(1, count); // biome-ignore format: one line a kind
  const pressure = channel("pressure", sampling, of((b, i) => 4e5 + b.noise * noise[i])); // biome-ignore format: short
  // The flow of a block is read with the sample before it: the step between blocks lies one sample earlier.
  const flow = channel("flow", every(1, count), Float64Array.from({ length: count }, (_, i) => {
    const block = blocks[Math.min(blocks.length - 1, Math.floor((i + 1) / BLOCK))];
    return 1e-3 * block.flow * (1 - ((block.change ?? 0) * ((i + 1) % BLOCK)) / (BLOCK - 1));
  })); // biome-ignore format: one function
  const record = recordOf(metered ? [pressure, flow] : [pressure]);
  const running = runs?.map(([from, to]) => ({ from: seconds(from * BLOCK), to: seconds(to * BLOCK - 1), complete: true }));
  const segments = running === undefined ? {} : { pump: { ...alwaysRunning(record), mode: "switching" as const, runs: running } };
  return noiseWithFlow(evidenceOf(record, segments), pressure);
}
/** n0 = 300 Pa, c = 1e9 Pa per (m3/s)^2: at 1 L/s the flow's share is 1 kPa. */
const [STILL, FACTOR] = [300, 1e9];
const turbulent = (flow: number): Block => ({ flow, noise: Math.hypot(STILL, FACTOR * (flow * 1e-3) ** 2) });
const ladder = (count: number, of: (flow: number) => Block) => Array.from({ length: count }, (_, i) => of(0.2 + (1.8 * i) / (count - 1)));

describe("noise that goes with the square of flow", () => {
  test("is found, with its factor and an interval about it", () => {
    const growth = growthOf(ladder(120, turbulent))!;
    expect(growth.grows).toBe(true);
    const { value, low, high } = growth.perFlowSquared!;
    expect(value / FACTOR).toBeGreaterThan(0.8);
    expect(value / FACTOR).toBeLessThan(1.2);
    expect(low).toBeLessThan(value);
    expect(high).toBeGreaterThan(value);
  });
  test("backwards flow counts like forwards", () => {
    const both = ladder(120, turbulent).map((block, i) => (i % 4 === 0 ? { ...block, flow: -block.flow } : block));
    expect(growthOf(both)?.grows).toBe(true);
  });
  test("noise that falls with flow, or stays, does not grow and has no factor", () => {
    expect(growthOf(ladder(120, (flow) => ({ flow, noise: 1500 - 500 * flow })))).toEqual({ grows: false, perFlowSquared: null });
    expect(growthOf(ladder(120, (flow) => ({ flow, noise: 600 })))).toEqual({ grows: false, perFlowSquared: null });
  });
  test("growth must be by half, however clear its line", () => {
    const grown = (by: number) => growthOf(ladder(1200, (flow) => ({ flow, noise: flow > 1 ? 600 * by : 600 })))!.grows;
    expect(grown(1.7)).toBe(true);
    expect(grown(1.35)).toBe(false);
  });
});

/** So many blocks, half of them at each flow: the one in which the flow steps is left out. */
const twoFlows = (count: number, low: number, high: number, change = 0) =>
  Array.from({ length: count + 1 }, (_, i) => ({ ...turbulent(i < count / 2 ? low : high), change }));

describe("what the tank gives while the pump rests need not pass the sensor", () => {
  const quiet = Array.from({ length: 90 }, () => ({ flow: 2, noise: STILL }));
  const blocks = [...ladder(60, turbulent), ...quiet, ...ladder(60, turbulent)];
  test("and is left out where the pump's rests are known", () => {
    expect(growthOf(blocks, { runs: [[0, 60], [150, 210]] })?.grows).toBe(true); // biome-ignore format: runs
    expect(growthOf(blocks, { runs: [[0, 60]] })?.grows).toBe(true); // biome-ignore format: runs
  });
  test("else counts like the rest", () => {
    expect(growthOf(blocks, { runs: [[0, 210]] })?.grows).toBe(false);
    expect(growthOf(blocks)?.grows).toBe(false);
  });
});

describe("not known", () => {
  test("from four blocks of much flow, or four of little; from five of each it is", () => {
    // The last block before the flow steps is left out.
    const blocks = (count: number, flow: number) => Array.from({ length: count }, () => turbulent(flow));
    for (const [many, few] of [
      [0.2, 2],
      [2, 0.2],
    ] as const) {
      // biome-ignore format: flows
      expect(growthOf([...blocks(30, many), ...blocks(5, few)])).not.toBeNull();
      expect(growthOf([...blocks(30, many), ...blocks(4, few)])).toBeNull();
    }
  });
  test("without a meter, or from a pressure logged on change", () => {
    expect(growthOf(ladder(120, turbulent), { metered: false })).toBeNull();
    expect(growthOf(ladder(120, turbulent), { held: true })).toBeNull();
  });
  test("from eleven blocks; from twelve it is", () => {
    expect(growthOf(twoFlows(11, 0.5, 2))).toBeNull();
    expect(growthOf(twoFlows(12, 0.5, 2))).not.toBeNull();
  });
  test("where the highest flows are less than twice the lowest", () => {
    expect(growthOf(twoFlows(40, 1, 2.05))).not.toBeNull();
    expect(growthOf(twoFlows(40, 1, 1.95))).toBeNull();
    expect(growthOf(twoFlows(40, 0, 0))).toBeNull();
    expect(growthOf(twoFlows(40, -1, 0.5))).not.toBeNull();
    expect(growthOf(twoFlows(40, -3, -1))).toBeNull();
  });
  test("from blocks in which the flow moves by over 15 %", () => {
    expect(growthOf(twoFlows(40, 0.5, 2, 0.14))).not.toBeNull();
    expect(growthOf(twoFlows(40, 0.5, 2, 0.17))).toBeNull();
  });
});
test("a sensor without any noise has none that grows, and nothing is divided by it", () => {
  expect(growthOf(ladder(60, (flow) => ({ flow, noise: 0 })))).toBeNull();
});

describe("over a hundred drawn logs", () => {
  const factors = Array.from({ length: 100 }, (_, i) => growthOf(ladder(120, turbulent), { seed: i + 1 })!.perFlowSquared!);
  test("the factor is right in the mean, so that the median of so few squares is known", () => {
    const mean = factors.reduce((sum, { value }) => sum + value, 0) / factors.length / FACTOR;
    const spread = Math.sqrt(factors.reduce((sum, { value }) => sum + (value / FACTOR - mean) ** 2, 0) / 99);
    expect(Math.abs(mean - 1)).toBeLessThan((3 * spread) / 10);
    expect(spread).toBeLessThan(0.1);
  });
  test("its interval holds it in nine of ten; before the blocks counted with their own scatter it was every second one", () => {
    const inside = factors.filter(({ low, high }) => low <= FACTOR && FACTOR <= high).length;
    expect(inside).toBeGreaterThanOrEqual(83); // 90 % of 100 is 90; 83 or more in 99 % of such tests
  });
});
