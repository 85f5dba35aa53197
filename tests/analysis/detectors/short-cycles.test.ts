import { describe, expect, test } from "vitest";
import { shortCycles } from "../../../analysis/detectors/short-cycles";
import { evidenceOf } from "../../builders/evidence";
import { channel, drawn, every, onChange, recordOf } from "../../builders/record";

/** One character is `step` seconds, # is running. */
const detect = (picture: string, step = 10, facts: Record<string, unknown> = {}) =>
  shortCycles.detect(evidenceOf(recordOf([channel("running", every(step, picture.length), drawn(picture))]), facts));

describe("short cycles, limit 60 s unless the site says otherwise", () => {
  test("a run under the limit is short", () => {
    expect(detect("..#####....########...")).toMatchObject({ state: "found", finding: { limit: 60, runs: [0], shortest: 50 } });
  });
  test("a run at the limit is not", () => {
    expect(detect("..######....########...")).toEqual({ kind: "short-cycles", state: "clear", limits: [] });
  });
  test("a run cut by an end or by a gap is left out", () => {
    expect(detect("###....######....##").state).toBe("clear");
    expect(detect("...##      ##...########....").state).toBe("clear");
  });
  test("the site's own limit counts", () => {
    expect(detect("..######....########...", 10, { shortCycleLimit: "75 s" })).toMatchObject({ state: "found", finding: { runs: [0] } });
  });
  test("a minute between samples hides short runs, and the answer says at which interval to log", () => {
    const hidden = detect("....##########......########....", 60);
    expect(hidden).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "sampling-too-slow", about: "short-cycles", detail: { intervalS: 60, logEveryS: 2 } }],
    });
  });
  test("between, long runs and only long runs are believed", () => {
    expect(detect("...########......########....########..", 15).state).toBe("clear");
    expect(detect("...#####......#########....#########...", 15).state).toBe("cannot-tell");
  });
  test("a log on change misses nothing however long its silences", () => {
    const record = recordOf([channel("running", onChange([0, 4000, 4012, 9000, 9300], 20_000), [0, 1, 0, 1, 0])]);
    expect(shortCycles.detect(evidenceOf(record))).toMatchObject({ state: "found", finding: { runs: [0], shortest: 12 } });
  });
  test("without a pump state the answer is open", () => {
    const record = recordOf([channel("temperature", every(1, 50), new Array(50).fill(290))]);
    expect(shortCycles.detect(evidenceOf(record))).toMatchObject({ state: "cannot-tell", because: [{ id: "no-pump-state" }] });
  });
});
