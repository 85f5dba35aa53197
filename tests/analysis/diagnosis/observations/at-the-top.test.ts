import { describe, expect, test } from "vitest";
import { LOOKS, observeAll } from "../../../../analysis/diagnosis/observations";
import { rank } from "../../../../analysis/diagnosis/rank";
import { SWITCHED } from "../../../builders/look-at";
import { psi } from "../../../builders/outcomes";
import { type Worked, workedHours } from "../../../builders/worked-hours";

const sight = (pressure: Worked["pressure"], facts: Worked["facts"] = {}) =>
  workedHours({ pressure, speed: null, flow: null, pumpKnown: false, facts: { ...SWITCHED, tankVolume: "400 gal", ...facts } });
const look = (pressure: Worked["pressure"], facts: Worked["facts"] = {}) => LOOKS["at-the-top"](sight(pressure, facts));
/** Ten minutes: 48 psi, the greatest head of a worn pump, but for a draw of 150 s that takes it to `low` in the middle. */
const worn = (low: (t: number) => number) => (k: number, t: number) =>
  k < 200 || k > 350 ? 48 : 48 - (48 - low(t)) * Math.sin((Math.PI * (k - 200)) / 150);
/** Up in 200 s from the start to the stop, down in 400 s. */
const sawTooth = (start: number, stop: number) => (k: number) =>
  k < 400 ? stop - ((stop - start) * k) / 400 : start + ((stop - start) * (k - 400)) / 200;
const anyDepth = (t: number) => 43 + ((Math.floor(t / 600) * 3) % 4);

describe("a pump on a switch at the highest pressure", () => {
  test("that goes down with a draw and back to the same top runs on there: between its stop and its start a switch lets nothing rise", () => {
    const seen = look(worn(anyDepth));
    expect(seen?.level).toBe("runs-on");
    expect(Number(seen?.numbers.top) / psi(1)).toBeCloseTo(48, 1);
  });
  test("that comes down to its start each time turns, at the cut-out of the facts as under another scale", () => {
    expect(look(sawTooth(40, 60))?.level).toBe("turns");
    expect(look(sawTooth(28, 42), { cutIn: undefined })?.level).toBe("turns");
  });
  test("at the cut-out of the facts it stops, wherever the lows lie", () => {
    expect(look(worn(anyDepth), { cutOut: "49 psi" })?.level).toBe("turns");
  });
  test("is not asked of a drive, nor with fewer than five lows", () => {
    expect(LOOKS["at-the-top"](workedHours({ pressure: worn(anyDepth) }))).toBeNull();
    expect(look((k, t) => (t < 2400 ? worn(anyDepth)(k, t) : 48))).toBeNull();
  });
  test("a worn pump comes first by it; a saw-tooth under another scale is none", () => {
    const order = (pressure: Worked["pressure"]) => rank(observeAll(sight(pressure))).map(({ id }) => id);
    expect(order(worn(anyDepth))[0]).toBe("pump-turning-backwards-or-weak");
    expect(order(sawTooth(40, 60)).slice(0, 3)).not.toContain("pump-turning-backwards-or-weak");
  });
});
