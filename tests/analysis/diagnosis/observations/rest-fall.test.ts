import { expect, test } from "vitest";
import { fallGoesOn } from "../../../../analysis/diagnosis/observations/rest-fall";
import type { DrawState } from "../../../../shared/findings/segment";
import { seconds } from "../../../../shared/units/quantity";
import { channelOf, NO_FACTS, psi, pumpWith, recordOf, segmentsWith } from "../../../builders/outcomes";

/** Runs of a minute and rests of nine, in which the pressure falls from 60 psi at so many psi a minute, as drawn by hand. */
const [RUN, CYCLE, STEP] = [60, 600, 2];
function fallsAt(rates: readonly number[], basis: DrawState["basis"]) {
  const length = rates.length * CYCLE;
  const values = Array.from({ length: length / STEP }, (_, i) => {
    const [k, at] = [Math.floor((i * STEP) / CYCLE), (i * STEP) % CYCLE];
    return psi(at < RUN ? 60 : 60 - (rates[k] * (at - RUN)) / 60);
  });
  const pump = pumpWith(rates.map((_, k) => [k * CYCLE, RUN] as const));
  const draw: DrawState = { basis, draws: [], idle: [{ from: seconds(0), to: seconds(length) }] };
  const record = recordOf([channelOf("pressure", "gaugePressure", values, STEP)], length / 3600);
  return fallGoesOn({ outcomes: [], segments: segmentsWith({ ...pump, observed: [...draw.idle] }, draw), site: NO_FACTS, record });
}
const leaking = new Array(30).fill(0.5);

const taps = leaking.map((_, k) => 0.3 + (0.4 * ((7 * k) % 10)) / 10);

test("through one hole the pressure falls alike in every rest, metered or not", () => {
  expect(fallsAt(leaking, "flow")).toBe(true);
  expect(fallsAt(leaking, "pressure")).toBe(true);
});
test("taps that differ from rest to rest are no leak's sign where no meter says that nothing was drawn, nor are a few rests", () => {
  expect(fallsAt(taps, "pressure")).toBeNull();
  expect(fallsAt(leaking.slice(0, 15), "pressure")).toBeNull();
  expect(fallsAt(leaking.slice(0, 15), "flow")).toBe(true);
});
