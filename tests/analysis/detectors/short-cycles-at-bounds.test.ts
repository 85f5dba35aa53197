import { describe, expect, test } from "vitest";
import { shortCycles } from "../../../analysis/detectors/short-cycles";
import type { PumpState, Run } from "../../../shared/findings/segment";
import type { Sampling } from "../../../shared/record/log-record";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { seconds } from "../../../shared/units/quantity";
import { alwaysRunning, evenSampling, evidenceOf, recordOf } from "../../builders/known-evidence";

type Seen = {
  readonly step?: number;
  readonly basis?: PumpState["basis"];
  readonly sampling?: Sampling;
  readonly mode?: PumpState["mode"];
  readonly limit?: string;
  readonly pumps?: PumpState["pumps"];
};
/** Runs drawn as [from, length], an open one as [from, length, false]; limit 60 s; the witness sampled every `step` s. */
function detect(
  drawn: readonly (readonly [number, number, false?])[],
  { step = 1, basis = "speed", sampling, mode = "switching", limit = "60 s", pumps = [] }: Seen = {},
) {
  const runs = drawn.map(([from, length, complete = true]): Run => ({ from: seconds(from), to: seconds(from + length), complete }));
  const values = new Float64Array(Math.ceil(20_000 / step)).fill(1);
  const record = recordOf({ pressure: values, speed: values }, sampling ?? evenSampling(values.length, step));
  const pump = { ...alwaysRunning(record), runs, mode, basis, channel: basis === "pressure" ? "pressure" : "speed", pumps };
  return shortCycles.detect(evidenceOf(record, { pump }, readSiteFacts({ shortCycleLimit: limit }, "site")));
}
const many = (count: number, length: number, complete = true) =>
  Array.from({ length: count }, (_, i) => [i * 500, length, ...(complete ? [] : [false])] as [number, number, false?]);

describe("which runs are short", () => {
  test("whole ones under the limit, with their places and the shortest of them", () => {
    const outcome = detect([[0, 70], [200, 50], [400, 60], [600, 20], [800, 10, false]]); // biome-ignore format: runs
    expect(outcome).toMatchObject({ state: "found", finding: { limit: 60, runs: [1, 3], shortest: 20, channels: ["speed"] } });
    expect(outcome.state === "found" ? outcome.finding.places.map((p) => p.from) : null).toEqual([200, 600]);
  });
  test("none: clear", () => expect(detect([[0, 70], [200, 90]])).toEqual({ kind: "short-cycles", state: "clear", limits: [] })); // biome-ignore format: runs
});

describe("how near a run may lie to the limit", () => {
  test("nearer than an interval may be on either side of it", () => {
    const unsure = (length: number) => {
      const outcome = detect([[0, length], [500, 300]], { step: 5 }); // biome-ignore format: runs
      return outcome.state === "broken" || outcome.state === "cannot-tell" ? null : (outcome.limits[0]?.detail ?? null);
    };
    expect(unsure(56)).toEqual({ intervalS: 5, limitS: 60, logEveryS: 2, unsureRuns: 1 });
    expect(unsure(64)).toMatchObject({ unsureRuns: 1 });
    expect(unsure(55)).toBeNull();
    expect(unsure(65)).toBeNull();
  });
  test("the count has those for its ends: 40 and 57 s are short, 62 s may be, 65 s is not", () => {
    const outcome = detect([[0, 40], [200, 57], [400, 62], [600, 65], [800, 55], [1000, 58, false]], { step: 5 }); // biome-ignore format: runs
    expect(outcome).toMatchObject({ finding: { runs: [0, 1, 4], count: { value: 3, low: 2, high: 4 } } });
  });
  test("one that was cut is not counted", () => expect(detect([[0, 58, false], [500, 300]], { step: 5 })).toMatchObject({ state: "clear", limits: [] })); // biome-ignore format: runs
});

describe("what the sampling hides", () => {
  const hidden = { id: "sampling-too-slow", about: "short-cycles" };
  test("nothing up to a sixth of the limit", () => {
    expect(detect([[0, 80], [500, 300]], { step: 10 }).state).toBe("clear"); // biome-ignore format: runs
    expect(detect([[0, 62], [500, 300]], { step: 11 }).state).toBe("cannot-tell"); // biome-ignore format: runs
  });
  test("up to half of it nothing where all runs hold six samples", () => {
    expect(detect([[0, 120], [500, 300]], { step: 20 }).state).toBe("clear"); // biome-ignore format: runs
    expect(detect([[0, 119], [500, 300]], { step: 20 }).state).toBe("cannot-tell"); // biome-ignore format: runs
    expect(detect([[0, 180], [500, 300]], { step: 30 }).state).toBe("clear"); // biome-ignore format: runs
    expect(detect([[0, 600], [5000, 300]], { step: 31 })).toMatchObject({ state: "cannot-tell", because: [hidden] }); // biome-ignore format: runs
    expect(detect([[0, 10, false], [500, 300]], { step: 20 }).state).toBe("clear"); // biome-ignore format: runs
  });
  test("says at which interval to log: a thirtieth of the limit, at least a second, at most half of what was", () => {
    const because = (step: number, limit: string) => {
      const outcome = detect([[0, 90], [5000, 300]], { step, limit }); // biome-ignore format: runs
      return outcome.state === "cannot-tell" ? outcome.because[0].detail : null;
    };
    expect(because(40, "60 s")).toEqual({ intervalS: 40, limitS: 60, logEveryS: 2 });
    expect(because(60, "90 s")).toMatchObject({ logEveryS: 3 });
    expect(because(20, "10 s")).toMatchObject({ logEveryS: 1 });
    const slow = detect([[0, 10], [5000, 7]], { step: 1.5, limit: "4 s" }); // biome-ignore format: runs
    expect(slow).toMatchObject({ because: [{ detail: { logEveryS: 0.75 } }] });
  });
  test("a pump that never seems to rest hides short runs where a rest falls between two samples; a log on change hides none", () => {
    expect(detect([[0, 600]], { step: 60, mode: "always-running" }).state).toBe("cannot-tell");
    expect(detect([[0, 600]], { step: 30, mode: "always-running" }).state).toBe("clear");
    const times = Float64Array.from({ length: 20_000 }, (_, i) => i);
    expect(detect([[0, 90]], { sampling: { kind: "on-change", times, until: seconds(20_000) } }).state).toBe("clear");
  });
  test("of several witnesses the slowest counts", () => {
    const pumps = [
      { channel: "speed", runs: [] },
      { channel: "elsewhere", runs: [] },
    ];
    expect(detect([[0, 90]], { step: 40, pumps }).state).toBe("cannot-tell");
    expect(detect([[0, 90]], { step: 40, pumps: [pumps[1]] }).state).toBe("clear");
  });
});

describe("read from the pressure's turns", () => {
  test("a run needs five samples: where most that were seen have fewer, others were missed", () => {
    const look = (length: number) => detect(many(20, length), { step: 5, basis: "pressure" });
    expect(look(24)).toMatchObject({ state: "found", limits: [{ detail: { intervalS: 5 } }] });
    expect(look(25)).toMatchObject({ state: "found", limits: [] });
    expect(detect(many(20, 24), { step: 5 })).toMatchObject({ state: "found", limits: [] });
  });
  test("stops that a drive hides: over a fifth of the runs, the record's two ends aside", () => {
    const open = (cut: number, basis: PumpState["basis"] = "pressure") =>
      detect(
        Array.from({ length: 20 }, (_, i) => [i * 500, 100, ...(i < cut ? [false] : [])] as [number, number, false?]),
        { basis },
      );
    expect(open(6).state).toBe("clear");
    expect(open(7)).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "no-pump-state", detail: { missing: "speed", hiddenStops: 5 } }],
    });
    expect(open(20, "speed").state).toBe("clear");
  });
  test("by flow only those that were shorter than the limit as far as they were seen", () => {
    const open = (length: number) => detect(many(20, length, false), { basis: "flow" }).state;
    expect(open(59)).toBe("cannot-tell");
    expect(open(60)).toBe("clear");
  });
});

test("where the pump's state is not known", () => {
  const record = recordOf({ pressure: [1, 2, 3] });
  expect(shortCycles.detect(evidenceOf(record))).toMatchObject({
    state: "cannot-tell",
    because: [{ id: "no-pump-state", about: "short-cycles" }],
  });
});

describe("stops that pressure alone does not show", () => {
  const runs = (whole: number, cut: number) => [...many(whole, 20), ...many(cut, 200, false)];
  test("where they are more than half of all, the few short runs that showed are no count; half are", () => {
    expect(detect(runs(4, 6), { basis: "pressure" })).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "no-pump-state", about: "short-cycles", detail: { missing: "speed", hiddenStops: 4 } }],
    });
    expect(detect(runs(5, 5), { basis: "pressure" })).toMatchObject({
      state: "found",
      finding: { count: { value: 5 } },
      limits: [{ id: "no-pump-state", detail: { hiddenStops: 3 } }],
    });
  });
  test("by speed a cut run hides nothing: they are counted beside it", () => {
    expect(detect(runs(4, 6))).toMatchObject({ state: "found", finding: { count: { value: 4 } }, limits: [] });
  });
});
