import { expect, test } from "vitest";
import { startsOnTheLine } from "../../../../analysis/diagnosis/observations/starts-on-the-line";
import { withPumpKind } from "../../../../analysis/diagnosis/pump-kind";
import { channelOf, NO_FACTS, pumpWith, recordOf, segmentsWith, siteOf } from "../../../builders/outcomes";

const [RUN, REST, CYCLES, IDLE] = [60, 120, 30, 0.05]; // s, s, -, A

/**
 * Current over cycles of a rest and a run, A against s from the start of the run. Locked-rotor currents of six times the rated: NEMA MG 1, code letter G
 * (5.6 to 6.3 kVA a hp at 230 V three-phase, from memory).
 */
function sightOf(current: (since: number, run: number) => number, step = 1, facts: object = {}) {
  const cycle = REST + RUN;
  const values = Array.from({ length: (CYCLES * cycle) / step }, (_, i) => {
    const at = (i * step) % cycle;
    return at < REST ? IDLE : current(at - REST, Math.floor((i * step) / cycle));
  });
  const runs = Array.from({ length: CYCLES }, (_, i) => [i * cycle + REST - step / 2, RUN] as const);
  const record = recordOf([channelOf("current", "electricCurrent", values, step)], (CYCLES * cycle) / 3600);
  const site = Object.keys(facts).length > 0 ? siteOf({ ...facts }) : NO_FACTS;
  return { outcomes: [], segments: segmentsWith({ ...pumpWith(runs), basis: "current" }), site, record };
}
const inrush = (caught: (run: number) => boolean) => (since: number, run: number) => (since === 0 && caught(run) ? 21 : 3.5);
const ramp = (since: number) => (since < 4 ? 0.9 * (1 + since) : 3.5);
/** A drive that fills the dip at full speed, then serves a small draw at 0.4 of the current. */
const fillsFirst = (full: number) => (since: number) => (since < full ? 8.5 : 3.5);

test("a motor that takes six times its running current as it starts has no drive before it, though the log catches few starts", () => {
  expect(startsOnTheLine(sightOf(inrush(() => true)))).toBe(true);
  expect(startsOnTheLine(sightOf(inrush((run) => run % 5 === 0)))).toBe(true);
  expect(
    startsOnTheLine(
      sightOf(
        inrush((run) => run % 5 === 0),
        5,
      ),
    ),
  ).toBe(true);
});
test("one start or two of many may be a disturbance", () => {
  expect(startsOnTheLine(sightOf(inrush((run) => run === 7 || run === 20)))).toBe(false);
});
test("a drive ramps up, or runs fast at first: at slow sampling that is no leap that only the line can give", () => {
  expect(startsOnTheLine(sightOf(ramp))).toBe(false);
  expect(startsOnTheLine(sightOf(fillsFirst(5), 5))).toBe(false);
  expect(startsOnTheLine(sightOf(fillsFirst(8)))).toBe(false);
});
test("leaps that come at any time of a run are a disturbance of the measurement", () => {
  const disturbed = (since: number, run: number) => ((since + run) % 12 === 0 ? 21 : 3.5);
  expect(startsOnTheLine(sightOf(disturbed))).toBe(false);
});
test("without current nothing is shown, and what the person says of the pump stands", () => {
  const { record, ...rest } = sightOf(inrush(() => true));
  expect(startsOnTheLine({ ...rest, record: recordOf([], record.duration / 3600) })).toBe(false);
  expect(withPumpKind({ ...rest, record }).site.pump).toBe("fixed-speed");
  expect(
    withPumpKind(
      sightOf(
        inrush(() => true),
        1,
        { pump: "variable-speed" },
      ),
    ).site.pump,
  ).toBe("variable-speed");
});
