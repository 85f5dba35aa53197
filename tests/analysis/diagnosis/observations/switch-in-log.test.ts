import { expect, test } from "vitest";
import { observeAll } from "../../../../analysis/diagnosis/observations";
import { showsSwitch } from "../../../../analysis/diagnosis/observations/switch-in-log";
import { withPumpKind } from "../../../../analysis/diagnosis/pump-kind";
import type { PumpState } from "../../../../shared/findings/segment";
import { channelOf, NO_FACTS, psi, pumpWith, recordOf, segmentsWith, siteOf } from "../../../builders/outcomes";

const AIR = 101_325;
const [RUN, REST, CYCLES] = [80, 120, 20]; // s, s
const runs = Array.from({ length: CYCLES }, (_, i) => [i * (RUN + REST) + REST, RUN] as const);

/** A tank that is emptied from `top` to `low` psi and filled again as `course` says, share of the way against share of the run; Boyle: 1/p goes evenly with the water. */
function sightOf(low: number, top: number, course: (share: number) => number, facts: object = {}, basis: PumpState["basis"] = "current") {
  const [a, b] = [1 / (psi(low) + AIR), 1 / (psi(top) + AIR)];
  const filled = (share: number) => 1 / (a + (b - a) * share) - AIR;
  const pressure = Array.from({ length: CYCLES * (RUN + REST) }, (_, t) => {
    const at = t % (RUN + REST);
    return at < REST ? filled(1 - at / REST) : filled(course((at - REST) / RUN));
  });
  const record = recordOf([channelOf("pressure", "gaugePressure", pressure)], pressure.length / 3600);
  const pump = { ...pumpWith(runs), basis };
  return { outcomes: [], segments: segmentsWith(pump), site: Object.keys(facts).length > 0 ? siteOf({ ...facts }) : NO_FACTS, record };
}
const climbs = (share: number) => share;
const holds = (share: number) => Math.min(1, share * 8);
/** Up to the set pressure, held there, and a step up before it sleeps. */
const boosts = (share: number) => Math.min(0.75, share * 8) + Math.max(0, share - 0.8) * 1.25;

test("a pump that climbs to one pressure and stops there, each time, is on a switch", () => {
  expect(showsSwitch(sightOf(30, 50, climbs))).toBe(true);
  expect(showsSwitch(sightOf(30, 50, climbs, {}, "running"))).toBe(true);
});
test("one that holds a pressure is on a drive, also where it steps up before it sleeps", () => {
  expect(showsSwitch(sightOf(30, 50, holds))).toBe(false);
  expect(showsSwitch(sightOf(30, 50, boosts))).toBe(false);
});
test("a drive that hunts between sleep and wake holds nothing, but over a few psi only: no switch is set so close", () => {
  expect(showsSwitch(sightOf(47, 51, climbs))).toBe(false);
});
test("not by the pressure alone, nor by a motor that shows its speed", () => {
  expect(showsSwitch(sightOf(30, 50, climbs, {}, "pressure"))).toBe(false);
  expect(showsSwitch(sightOf(30, 50, climbs, {}, "speed"))).toBe(false);
});
test("it answers for the kind of pump where the facts do not, and never against them", () => {
  const kind = (facts: object) =>
    observeAll(withPumpKind(sightOf(30, 50, climbs, facts))).find(({ id }) => id === "pump-kind")?.level ?? null;
  expect(kind({})).toBe("switch");
  expect(kind({ pump: "variable-speed" })).toBe("drive");
  expect(kind({ setPressure: "50 psi" })).toBeNull();
});
