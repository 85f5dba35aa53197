import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { isCannotTell, type PumpState } from "../../../shared/findings/segment";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, recordOf } from "../../builders/record";

/** Pressure in bar, one sample a second, with a little noise; the instants of the starts are put in by hand. */
class Trace {
  private readonly bar: number[] = [];
  readonly starts: number[] = [];
  private readonly chance = seededRandom(11);
  to(level: number, seconds: number): this {
    const from = this.bar.at(-1) ?? level;
    for (let s = 1; s <= seconds; s++) this.bar.push(from + ((level - from) * s) / seconds);
    return this;
  }
  start(): this {
    this.starts.push(this.bar.length);
    return this;
  }
  between = (low: number, high: number) => Math.round(low + (high - low) * this.chance.next());
  record() {
    const noisy = this.bar.map((p) => p * 1e5 + 300 * this.chance.normal());
    return recordOf([channel("pressure", every(1, noisy.length), noisy)]);
  }
}

function pumpOf(trace: Trace): PumpState {
  const { pump } = evidenceOf(trace.record(), {}).segments;
  if (isCannotTell(pump)) throw new Error(JSON.stringify(pump));
  return pump;
}
const hit = (pump: PumpState, starts: readonly number[]) =>
  starts.filter((t) => pump.runs.some((run) => Math.abs(run.from - t) <= 3)).length;

describe("a tank that empties before the pump starts", () => {
  test("a switch: lows that spread over more than the whole differential are starts, every one", () => {
    const trace = new Trace().to(4.5, 1);
    for (let k = 0; k < 30; k++) {
      const low = k % 3 === 0 ? 3.6 : 0.5 + 0.08 * k; // gone in a second or two
      trace.to(3.7, trace.between(20, 90)).to(low, 2).start().to(4.5, trace.between(20, 40));
    }
    const pump = pumpOf(trace.to(4.4, 40));
    expect(hit(pump, trace.starts)).toBe(30);
    expect(pump.runs.filter((run) => run.complete)).toHaveLength(30);
  });
  test("a drive: plunges are starts, the dips of a running pump are none, and when it stopped is not claimed", () => {
    const trace = new Trace().to(4, 120);
    for (let k = 0; k < 20; k++) {
      trace
        .to(3.4, trace.between(15, 60))
        .to(0.3 + 0.1 * k, 1)
        .start()
        .to(4, 3)
        .to(4, trace.between(60, 200));
      trace.to(3.8, 3).to(4, 6).to(4, 60);
    }
    const pump = pumpOf(trace);
    expect(hit(pump, trace.starts)).toBe(20);
    expect(pump.runs.length).toBeLessThanOrEqual(21);
    expect(pump.runs.some((run) => run.complete)).toBe(false);
  });
  test("collapses under draws above what a running pump gives are no starts", () => {
    const trace = new Trace().to(4, 120);
    for (let k = 0; k < 20; k++)
      trace
        .to(0.3 + 0.1 * k, 3)
        .to(0.3 + 0.1 * k, 40 + 5 * k)
        .to(4, 6)
        .to(4, 200 + 10 * k);
    expect(isCannotTell(evidenceOf(trace.record(), {}).segments.pump)).toBe(true);
  });
});

test("saw-teeth of many lengths, whose corners blur where they are laid over each other, are starts and stops", () => {
  const trace = new Trace().to(6, 1);
  for (let k = 0; k < 60; k++) trace.to(4.7, trace.between(15, 120)).start().to(6, trace.between(15, 90));
  expect(hit(pumpOf(trace.to(5.9, 30)), trace.starts)).toBeGreaterThanOrEqual(59);
});
test("two steps of a coarse channel are not two heaps of lows", () => {
  const trace = new Trace().to(2.71, 1);
  for (let k = 0; k < 40; k++)
    trace
      .to(k % 3 === 0 ? 1.62 : 1.61, trace.between(60, 200))
      .start()
      .to(2.71, trace.between(20, 50));
  const { pump } = evidenceOf(trace.to(2.6, 30).record(), {}).segments;
  if (isCannotTell(pump)) throw new Error(JSON.stringify(pump));
  expect(hit(pump, trace.starts)).toBe(40);
});
